import { expect, test } from "vitest";
import { lessonState } from "../../../engine/session/index.ts";
import { earlierTakes } from "../../../renderer/app/earlierTakes.ts";
import { ANYBODY, Players } from "../../../renderer/app/players.ts";
import { Roster } from "../../../renderer/screens/roster/roster.ts";
import { LessonLog } from "../../../renderer/session/lessonLog.ts";
import { readLesson } from "../../../renderer/store/index.ts";
import { ALONE, BRAM, keptStudio, OTTILIE, SHARED } from "../screens/roster/keptStudio.ts";

async function playing(ids: readonly string[]) {
  const database = await keptStudio();
  const roster = new Roster(database);
  await roster.read();
  const log = new LessonLog();
  const players = new Players(database, log, roster);
  log.begin({
    lessonId: "2026-03-09T15:00:00.000Z~now",
    studentIds: ids,
    zone: "Europe/Vienna",
    lanes: ids.map((studentId) => ({ studentId, source: "kit" })),
  });
  return { database, log, players };
}

test("the student at the kit sets the level, and is known by earlier takes", async () => {
  const { log, players } = await playing([OTTILIE.id]);
  expect(players.at(0)).toMatchObject({ studentId: OTTILIE.id, level: "first-year" });
  await expect.poll(() => players.at(0).own.map(({ styleId }) => styleId)).toEqual(["shuffle"]);
  log.end();
  expect(players.at(0)).toBe(ANYBODY);
});

test("two students sit at two kits; the round listens to one of them", async () => {
  const { players } = await playing([OTTILIE.id, BRAM.id]);
  expect([0, 1, 2].map((lane) => players.at(lane).studentId)).toEqual([OTTILIE.id, BRAM.id, null]);
  players.turnTo(1);
  expect(players.get().lane).toBe(1);
  players.turnTo(7);
  expect(players.get().lane).toBe(1);
});

test("whose turn it is holds when the program is opened again within the lesson, and for no other lesson", async () => {
  const database = await keptStudio();
  const roster = new Roster(database);
  await roster.read();
  const kept = new Map<string, string>();
  const place = {
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, value: string) => void kept.set(key, value),
  };
  const opened = (lessonId: string, kits: number): Players => {
    const log = new LessonLog();
    const players = new Players(database, log, roster, place);
    const ids = [OTTILIE.id, BRAM.id].slice(0, kits);
    const lanes = ids.map((studentId) => ({ studentId, source: "kit" as const }));
    log.begin({ lessonId, studentIds: ids, lanes, zone: "Europe/Vienna" });
    return players;
  };
  opened("2026-03-09T15:00:00.000Z~a", 2).turnTo(1);
  expect(opened("2026-03-09T15:00:00.000Z~a", 2).get().lane).toBe(1);
  expect(opened("2026-03-09T15:00:00.000Z~a", 1).get().lane).toBe(0);
  expect(opened("2026-03-09T15:30:00.000Z~b", 2).get().lane).toBe(0);
  kept.set("throneside.turn", "{");
  expect(opened("2026-03-09T15:00:00.000Z~a", 2).get().lane).toBe(0);
});

test("earlier takes are the student's own strikes, oldest first, without those of the lesson that is on", async () => {
  const database = await keptStudio();
  const [own] = await earlierTakes(database, OTTILIE.id);
  const alone = lessonState((await readLesson(database, ALONE)).events);
  expect(alone.rounds[0]?.takes[0]?.hitCount).toBe(8);
  expect(own?.styleId).toBe("shuffle");
  // Eight in the lesson of her own; eight in the shared one, where she sat at the second kit.
  expect(own?.takes.map((hits) => [hits.length, hits[0]?.time])).toEqual([
    [8, 11],
    [8, 111],
  ]);
  expect((await earlierTakes(database, OTTILIE.id, SHARED))[0]?.takes).toHaveLength(1);
});
