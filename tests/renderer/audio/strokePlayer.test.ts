import fc from "fast-check";
import { expect, test } from "vitest";
import { AHEAD_SECONDS, type Planned, StrokePlan } from "../../../renderer/audio/strokePlayer.ts";

const at = (time: number): Planned => ({ time, voice: "snare", velocity: 0.6 });
const times = (strokes: readonly Planned[]): readonly number[] => strokes.map(({ time }) => time);

test("strokes are given once each, in order, up to the moment asked for", () => {
  const plan = new StrokePlan([at(1), at(0), at(0.5)]);
  expect(times(plan.until(0.6))).toEqual([0, 0.5]);
  expect(plan.isOver).toBe(false);
  expect(times(plan.until(9))).toEqual([1]);
  expect(times(plan.until(9))).toEqual([]);
  expect(plan.isOver).toBe(true);
});

test("a round is repeated at its length, without end", () => {
  const plan = new StrokePlan([at(0), at(1.5)], 2);
  expect(times(plan.until(5))).toEqual([0, 1.5, 2, 3.5, 4]);
  expect(plan.isOver).toBe(false);
});

test("nothing to play is over at once", () => {
  expect(new StrokePlan([], 2).isOver).toBe(true);
  expect(new StrokePlan([]).until(10)).toEqual([]);
});

test.each([0, -1, Number.NaN])("a round of %d seconds is refused", (length) => {
  expect(() => new StrokePlan([at(0)], length)).toThrow("give it a length");
});

test("however it is asked, every stroke comes exactly once and before it is due", () => {
  fc.assert(
    fc.property(
      fc.array(fc.double({ min: 0, max: 20, noNaN: true }), { maxLength: 60 }),
      fc.array(fc.double({ min: 0, max: 3, noNaN: true }), { maxLength: 30 }),
      (moments, waits) => {
        const plan = new StrokePlan(moments.map(at));
        let now = 0;
        const given: number[] = [];
        for (const wait of [...waits, 100]) {
          now += wait;
          given.push(...times(plan.until(now)));
        }
        expect(given).toEqual(moments.toSorted((a, b) => a - b));
      },
    ),
  );
});

test("a stall of 200 ms, and being woken once a second only, leave every stroke ahead of its time", () => {
  expect(AHEAD_SECONDS).toBeGreaterThan(1 + 0.2 + 0.3);
});
