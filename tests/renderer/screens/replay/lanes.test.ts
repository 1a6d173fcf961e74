import { expect, test } from "vitest";
import { hitsOfTake, lessonState } from "../../../../engine/session/index.ts";
import { lanesSeen, writtenVoices } from "../../../../renderer/screens/replay/lanes.ts";
import { strikesOf } from "../../../../renderer/screens/replay/strikes.ts";
import {
  LEAD_IN,
  leadIn,
  takeAtOrBefore,
  takeFrom,
  takeStart,
  takesOf,
} from "../../../../renderer/screens/replay/takesOfLesson.ts";
import { AT, LESSON, playedOnTwoKits } from "./playedLesson.ts";

const TWO = playedOnTwoKits(
  AT,
  { studentId: "bram", takes: [{ styleId: "rock-eighths", seed: 1 }] },
  {
    studentId: "noor",
    takes: [
      { styleId: "shuffle", seed: 2, bars: 4 },
      { styleId: "shuffle", seed: 3, bars: 4 },
    ],
  },
);
const whole = lessonState(TWO);
const all = strikesOf(TWO, writtenVoices(whole));
const STUDENTS = [
  { id: "noor", nickname: "Noor" },
  { id: "bram", nickname: "Bram" },
];
const lanes = lanesSeen(whole, all, STUDENTS);

test("each kit has its name, and exactly the strikes of its own takes", () => {
  expect(lanes.map(({ lane, who, name }) => [lane, who, name])).toEqual([
    [0, "Bram", "kit 1, Bram"],
    [1, "Noor", "kit 2, Noor"],
  ]);
  for (const { lane, strikes } of lanes) {
    const takes = takesOf(whole).filter((take) => take.lane === lane);
    expect(strikes.hits).toEqual(takes.flatMap((take) => hitsOfTake(TWO, take)));
    expect(strikes.hits.length).toBeGreaterThan(50);
  }
  expect(lanes.reduce((sum, { strikes }) => sum + strikes.hits.length, 0)).toBe(all.hits.length);
  // The shuffle is on the ride, rock eighths on the hi-hat: a row that nobody uses is not shown.
  expect(lanes[0]?.strikes.voices).not.toContain("ride");
  expect(lanes[1]?.strikes.voices).toContain("ride");
});

test("a lesson on one kit is seen as it is; nobody in particular is called so", () => {
  const strikes = strikesOf(LESSON);
  const [only, ...others] = lanesSeen(lessonState(LESSON), strikes, []);
  expect(only).toMatchObject({ lane: 0, name: "kit 1, nobody in particular" });
  expect(only?.strikes).toBe(strikes);
  expect(others).toEqual([]);
});

test("takes are walked along the kit that is looked at", () => {
  const starts = (lane: number) => takesOf(whole).flatMap((take) => (take.lane === lane ? [take.from] : []));
  expect(starts(0)).toHaveLength(1);
  const [first = 0, second = 0] = starts(1);
  const moments = { whole, events: TWO };
  expect(takeFrom(moments, first, { way: "on", lane: 1 })).toBe(second - LEAD_IN);
  expect(takeFrom(moments, second - LEAD_IN, { way: "back", lane: 1 })).toBe(first - LEAD_IN);
  expect(takeFrom(moments, first, { way: "on", lane: 0 })).toBeUndefined();
  expect(takeAtOrBefore(whole, 0)?.studentId).toBe("bram");
  expect(takeAtOrBefore(whole, 1)).toMatchObject({ studentId: "noor", from: second });
});

test("one comes before the first strike of a take, also where that was ahead of its beginning", () => {
  const events = LESSON.map((event) => {
    const take = takesOf(lessonState(LESSON))[0];
    // The click was running: the first beat that counts lies before the take was begun.
    if (event.kind === "take-began" && event.takeId === take?.takeId)
      return { ...event, from: event.from - 1 };
    const first = LESSON.find(({ kind }) => kind === "hit");
    if (event.kind !== "hit" || event !== first) return event;
    const time = (take?.from ?? 0) - 0.2;
    return { ...event, time, hit: { ...event.hit, time } };
  });
  const whole = lessonState(events);
  const [take] = takesOf(whole);
  if (!take) throw new Error("The lesson has no take.");
  const [first] = hitsOfTake(events, take);
  expect(first?.time).toBeCloseTo(take.from - 0.2, 9);
  expect(takeStart(take, { events })).toBe(first?.time);
  const at = takeFrom({ whole, events }, 0, { way: "on", lane: 0 }) ?? Number.NaN;
  expect(at).toBeCloseTo((first?.time ?? 0) - LEAD_IN, 9);
  expect(leadIn(0.2)).toBe(0);
});
