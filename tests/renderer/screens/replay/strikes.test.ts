import { expect, test } from "vitest";
import {
  densityOf,
  nextStrike,
  strikeAt,
  strikeBefore,
  strikesBetween,
  strikesOf,
  strikesOfLane,
} from "../../../../renderer/screens/replay/strikes.ts";
import { LESSON } from "./playedLesson.ts";

const strikes = strikesOf(LESSON);
const times = [...strikes.times];

test("every strike of the log is there once, in order, in the row of its voice", () => {
  expect(strikes.hits.length).toBe(LESSON.filter(({ kind }) => kind === "hit").length);
  expect(times).toEqual([...times].sort((a, b) => a - b));
  strikes.hits.forEach((hit, index) => {
    expect(strikes.voices[strikes.rows[index] ?? -1]).toBe(hit.voice);
  });
});

test("strikes from one moment to another, both included", () => {
  const [from = 0, to = 0] = [times[10], times[20]];
  const { first, end } = strikesBetween(strikes, from, to);
  expect(times.slice(first, end)).toEqual(times.filter((time) => time >= from && time <= to));
  expect(strikesBetween(strikes, 9000, 9001)).toEqual({ first: times.length, end: times.length });
});

test("stepping from strike to strike meets every moment once, there and back", () => {
  const there: number[] = [];
  for (let time = 0, next = nextStrike(strikes, time); next !== undefined; next = nextStrike(strikes, time)) {
    time = times[next] ?? Number.POSITIVE_INFINITY;
    there.push(time);
  }
  const back: number[] = [];
  for (
    let time = 1e6, next = strikeBefore(strikes, time);
    next !== undefined;
    next = strikeBefore(strikes, time)
  ) {
    time = times[next] ?? Number.NEGATIVE_INFINITY;
    back.push(time);
  }
  expect(there.length).toBeGreaterThan(100);
  // Strikes nearer than a millisecond are one step.
  expect(Math.max(...there)).toBe(times.at(-1));
  expect(back.at(-1)).toBeCloseTo(times[0] ?? 0, 2);
  expect(there.every((time, index) => index === 0 || time > (there[index - 1] ?? 0))).toBe(true);
});

test("the strike at the cursor is the one that is heard there, and none long after", () => {
  const last = times.length - 1;
  const end = times[last] ?? 0;
  expect(strikeAt(strikes, end + 0.1)).toBe(last);
  expect(strikeAt(strikes, end + 0.2)).toBeUndefined();
  expect(strikeAt(strikes, -1)).toBeUndefined();
});

test("columns of thickness hold every strike once", () => {
  const counts = densityOf(strikes, 0, 100, 37);
  expect(counts.reduce((sum, count) => sum + count, 0)).toBe(times.filter((time) => time <= 100).length);
});

test("a voice that is written and never struck has its row", () => {
  const { voices, rows, hits } = strikesOf(LESSON, ["cowbell", "kick"]);
  expect(voices).toContain("cowbell");
  expect(voices.length).toBe(strikes.voices.length + 1);
  hits.forEach((hit, index) => {
    expect(voices[rows[index] ?? -1]).toBe(hit.voice);
  });
});

test("of two kits each has its own strikes, in rows of its own", () => {
  const two = strikesOf(
    LESSON.map((event, index) => (event.kind === "hit" ? { ...event, lane: index % 2 } : event)),
  );
  const [left, right] = [strikesOfLane(two, 0), strikesOfLane(two, 1)];
  expect(left.hits.length + right.hits.length).toBe(two.hits.length);
  expect(left.hits.length).toBeGreaterThan(50);
  expect(strikesOfLane(two, 0, ["cowbell"]).voices).toContain("cowbell");
  expect(left.voices).toEqual(two.voices.filter((voice) => left.hits.some((hit) => hit.voice === voice)));
  expect(left.lanes.every((lane) => lane === 0) && right.lanes.every((lane) => lane === 1)).toBe(true);
  left.hits.forEach((hit, index) => {
    expect([left.times[index], left.voices[left.rows[index] ?? -1]]).toEqual([hit.time, hit.voice]);
  });
});
