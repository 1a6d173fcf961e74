import { expect, test } from "vitest";
import { styleById } from "../../../../engine/catalogue/index.ts";
import { nextTimeList, roundOf } from "../../../../engine/memory/index.ts";
import { playOf, ROUND_RULES, roundStepSchema } from "../../../../engine/rounds/index.ts";
import { type ItemId, lessonState, type RoundKind } from "../../../../engine/session/index.ts";
import { seededChance } from "../../../../engine/units/index.ts";
import { inStudio } from "../../../../renderer/screens/next-time/nextTimePlace.ts";
import { loadDemoStudio } from "../../../../renderer/screens/studio/demo/demoStudio.ts";
import { inventLesson } from "../../../../renderer/screens/studio/demo/inventLesson.ts";
import { inventSteps } from "../../../../renderer/screens/studio/demo/inventSteps.ts";
import { type AskedRound, INVENTED_STUDENTS } from "../../../../renderer/screens/studio/demo/millrace.ts";
import { removeDemoStudio } from "../../../../renderer/screens/studio/demo/removeDemoStudio.ts";
import {
  lessonsOfDay,
  readLesson,
  resultsOfStudent,
  takesOfStudent,
} from "../../../../renderer/store/index.ts";
import { allThatIsKept, keptStudio } from "../roster/keptStudio.ts";

const NOW = { now: "2026-03-10T10:00:00.000Z", zone: "Europe/Vienna" };

test("half a year of lessons comes, all of it marked as invented, and goes again without a trace", async () => {
  const database = await keptStudio();
  const before = await allThatIsKept(database);
  const told: number[] = [];
  await loadDemoStudio(database, NOW, (done) => told.push(done));
  expect(told.at(-1)).toBe(104);

  const students = await database.students.filter(({ invented }) => invented === true).toArray();
  expect(students.map(({ nickname }) => nickname).sort()).toEqual(["Bram", "Casimir", "Noor", "Ottilie"]);
  expect(await database.lessons.filter(({ invented }) => invented === true).count()).toBe(104);
  expect(await lessonsOfDay(database, "2026-03-10")).toEqual([]);
  expect(await lessonsOfDay(database, "2026-03-03")).toHaveLength(5);
  const ottilie = students.find(({ nickname }) => nickname === "Ottilie");
  if (!ottilie) throw new Error("Ottilie is missing.");
  const takes = await takesOfStudent(database, ottilie.id);
  expect(takes.length).toBe(52);
  const spreads = takes.toReversed().flatMap(({ spreadMs }) => spreadMs ?? []);
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  // She got steadier: simulated so, and heard so.
  expect(mean(spreads.slice(-10))).toBeLessThan(mean(spreads.slice(0, 10)));
  const { results, changes } = await inStudio(database).evidenceOf(ottilie);
  const list = nextTimeList({ results, changes, lessonDay: "2026-03-10" });
  expect(list.refresh.length).toBeGreaterThan(0);
  const { events } = await readLesson(database, takes[0]?.lessonId ?? "");
  expect(lessonState(events)).toMatchObject({ stage: "ended", began: { invented: true } });

  // Each student is asked in every round in the half year, what is liked oftener than what is not.
  for (const who of INVENTED_STUDENTS) {
    const shown = (await resultsOfStudent(database, who.student.id)).filter(
      ({ item }) => !item.startsWith("style:"),
    );
    const rounds = new Map<RoundKind | null, Set<string>>();
    for (const { item, evidence } of shown)
      rounds.set(roundOf(item), (rounds.get(roundOf(item)) ?? new Set()).add(evidence.roundId));
    const played = (round: RoundKind): number => rounds.get(round)?.size ?? 0;
    const kinds = Object.keys(who.rounds) as AskedRound[];
    expect(kinds.map(played).filter((times) => times > 0)).toHaveLength(kinds.length);
    const byLiking = kinds.toSorted((a, b) => who.rounds[b] - who.rounds[a]).map(played);
    expect(byLiking[0]).toBeGreaterThan(byLiking.at(-1) ?? Number.POSITIVE_INFINITY);
  }

  await removeDemoStudio(database);
  expect(await allThatIsKept(database)).toBe(before);
}, 240_000);

test.each(INVENTED_STUDENTS)(
  "$student.nickname strikes each voice on a pad of its own: no soft stroke beside a loud one is lost",
  (who) => {
    const lesson = { at: "2026-03-03T15:00:00.000Z", zone: NOW.zone, number: 20, of: 26 };
    const { events } = inventLesson(who, {
      ...lesson,
      lessonId: "l",
      chance: seededChance(5),
      met: new Set(),
    });
    const hits = events.flatMap((event) => (event.kind === "hit" ? [event.hit] : []));
    expect(hits.length).toBeGreaterThan(50);
    const pads = new Map<number, Set<string>>();
    for (const { pad, voice } of hits) pads.set(pad, (pads.get(pad) ?? new Set()).add(voice));
    for (const voices of pads.values()) expect(voices.size).toBe(1);
    expect(pads.size).toBe(new Set(hits.map(({ voice }) => voice)).size);
  },
);

test.each(INVENTED_STUDENTS)(
  "what $student.nickname is asked is in the program, and every event as the log has it",
  (who) => {
    const chance = seededChance(11);
    const met = new Set<ItemId>();
    for (const number of [0, 12, 25])
      for (const round of Object.keys(who.rounds) as AskedRound[]) {
        const along = number / 25;
        const steps = inventSteps(round, { who, along, met, chance });
        for (const { after, step } of steps) {
          expect(roundStepSchema.parse(step)).toEqual(step);
          expect(after).toBeGreaterThanOrEqual(0);
        }
        const play = playOf(
          round,
          steps.map(({ step }) => step),
        );
        expect(play.stage).toBe("over");
        const shown = ROUND_RULES[round].shown(play.own as never);
        expect(shown.length).toBeGreaterThan(0);
        for (const { item } of shown) met.add(item);
      }
    for (const style of [...who.styles, ...who.spotted]) expect(styleById(style)?.id).toBe(style);
  },
);

test("the same seed invents the same lesson", () => {
  const [who] = INVENTED_STUDENTS;
  if (!who) throw new Error("Nobody is invented.");
  const lesson = () =>
    inventLesson(who, {
      lessonId: "l",
      at: "2026-03-03T15:00:00.000Z",
      zone: "Europe/Vienna",
      number: 10,
      of: 26,
      chance: seededChance(3),
      met: new Set(),
    }).events;
  expect(lesson()).toEqual(lesson());
  expect(lesson().filter(({ kind }) => kind === "judgement")).toHaveLength(2);
});
