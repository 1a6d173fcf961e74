import { IDBFactory, IDBKeyRange } from "fake-indexeddb";
import { describe, expect, test } from "vitest";
import { judgeTake, type TakeToJudge } from "../../../../engine/rounds/index.ts";
import { hitsOfTake, lessonState, type SessionEvent } from "../../../../engine/session/index.ts";
import { nextOther, otherTakes, takeOfLesson } from "../../../../renderer/screens/replay/otherTakes.ts";
import { TakesAgain } from "../../../../renderer/screens/replay/takeAgain.ts";
import { takesOf } from "../../../../renderer/screens/replay/takesOfLesson.ts";
import { StudioDatabase, takesOfGroove, writeEvents } from "../../../../renderer/store/index.ts";
import { AT, LESSON, playedLesson } from "./playedLesson.ts";

const NOVEMBER = playedLesson({
  at: "2025-11-03T15:30:00.000Z",
  takes: [
    { styleId: "rock-eighths", seed: 10, spreadMs: 30 },
    { styleId: "rock-eighths", seed: 11, spreadMs: 25, tempoBpm: 90 },
  ],
});
const LATER = playedLesson({
  at: "2026-05-04T15:30:00.000Z",
  takes: [{ styleId: "rock-eighths", seed: 12, free: true }],
});
const ALL = [NOVEMBER, LESSON, LATER];

async function studio(lessons: readonly (readonly SessionEvent[])[] = ALL): Promise<StudioDatabase> {
  const database = new StudioDatabase("studio", { indexedDB: new IDBFactory(), IDBKeyRange });
  for (const events of lessons) await writeEvents(database, lessonState(events), events);
  return database;
}

const whole = lessonState(LESSON);
const [FIRST, SECOND, THIRD] = takesOf(whole);
if (!FIRST || !SECOND || !THIRD) throw new Error("The lesson has too few takes.");

describe("what can be laid beside a take", () => {
  test("takes of this lesson, then one of each other lesson, the latest first; each told apart", async () => {
    const months = await takesOfGroove(await studio(), "bram", "rock-eighths");
    expect(months).toHaveLength(5);
    const others = otherTakes(SECOND, whole, months);
    expect(others.map(({ name, isEarlier }) => [name, isEarlier])).toEqual([
      ["take 1", true],
      ["the take of 4 May 2026", false],
      ["the take of 3 November 2025", true],
    ]);
    expect(others.map(({ inShort }) => inShort)).toEqual([
      "take 1: 100 a minute, with the click",
      expect.stringMatching(/^4 May 2026: \d+ a minute, no click$/),
      // Of each lesson its last take.
      "3 November 2025: 90 a minute, with the click",
    ]);
  });

  test("a take that came after it is told as such; another groove is not offered", () => {
    expect(otherTakes(FIRST, whole, []).map(({ name, isEarlier }) => [name, isEarlier])).toEqual([
      ["take 2", false],
    ]);
    expect(otherTakes(THIRD, whole, [])).toEqual([]);
  });

  test("one after the other, at last none, then the first again", async () => {
    const others = otherTakes(SECOND, whole, await takesOfGroove(await studio(), "bram", "rock-eighths"));
    const walk = [nextOther(others, undefined)];
    for (let step = 0; step < others.length; step += 1) walk.push(nextOther(others, walk.at(-1)));
    expect(walk).toEqual([...others, undefined]);
    expect(nextOther([], undefined)).toBeUndefined();
  });
});

describe("a take of another lesson", () => {
  const judge = { begin: () => {}, judge: (take: TakeToJudge) => Promise.resolve(judgeTake(take)) };

  test("is judged from its own lesson, with its own strikes", async () => {
    const database = await studio();
    const months = await takesOfGroove(database, "bram", "rock-eighths");
    const other = otherTakes(SECOND, whole, months).at(-1);
    if (!other) throw new Error("Nothing can be laid beside the take.");
    const again = await takeOfLesson(other, { database, takes: new TakesAgain(judge, () => "steady") });
    const then = takesOf(lessonState(NOVEMBER)).at(-1);
    expect(again.take.takeId).toBe(then?.takeId);
    expect(again.hits).toEqual(then && hitsOfTake(NOVEMBER, then));
    const kept = months.find(({ takeId }) => takeId === other.takeId);
    expect(again.judgement.compared?.report.spreadMs).toBeCloseTo(kept?.spreadMs ?? Number.NaN, 9);
  });

  test("of a lesson that was erased says so", async () => {
    const database = await studio([LESSON]);
    const takes = new TakesAgain(judge, () => "steady");
    await expect(takeOfLesson({ takeId: "gone", lessonId: AT }, { database, takes })).rejects.toThrow(
      /no longer kept/,
    );
  });
});
