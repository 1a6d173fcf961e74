import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { type ChartLook, FIRST_SETTINGS } from "../../../../engine/rounds/index.ts";
import { LookClock } from "../../../../renderer/screens/wall-chart/lookClock.ts";

beforeEach(() => {
  vi.useFakeTimers({ toFake: ["setInterval", "clearInterval", "performance"] });
});
afterEach(() => {
  vi.useRealTimers();
});

const LOOK: ChartLook = {
  by: null,
  settings: FIRST_SETTINGS,
  forSeconds: 20,
  seconds: 0,
  named: [],
  stray: [],
  ofTeacher: false,
};

/** A clock of a look that is kept as the round keeps it. */
function looking() {
  const on: { look: ChartLook | undefined } = { look: LOOK };
  const left: [number, number | null][] = [];
  const clock = new LookClock({
    look: () => on.look,
    left: (seconds, page) => left.push([seconds, page]),
    looked: (seconds) => {
      if (on.look) on.look = { ...on.look, seconds: on.look.seconds + seconds };
    },
  });
  clock.settle();
  return { clock, left, on };
}

test("it counts down by the second, and turns each page after as long as the others", () => {
  const { left } = looking();
  expect(left).toEqual([[20, null]]);
  vi.advanceTimersByTime(10_000);
  expect(left.map(([seconds]) => seconds)).toEqual([20, 19, 18, 17, 16, 15, 14, 13, 12, 11, 10]);
  expect(left.filter(([, page]) => page !== null)).toEqual([
    [15, 1],
    [10, 2],
  ]);
});

test("what was looked is written down every five seconds, and when it is over", () => {
  const { on } = looking();
  vi.advanceTimersByTime(4900);
  expect(on.look?.seconds).toBe(0);
  vi.advanceTimersByTime(200);
  expect(on.look?.seconds).toBeCloseTo(5);
  vi.advanceTimersByTime(16_000);
  expect(on.look?.seconds).toBeGreaterThanOrEqual(20);
});

test("no time passes while nobody looks", () => {
  const { clock, on, left } = looking();
  vi.advanceTimersByTime(2000);
  clock.write();
  expect(on.look?.seconds).toBeCloseTo(2);
  const { look } = on;
  on.look = undefined;
  clock.settle();
  vi.advanceTimersByTime(60_000);
  clock.write();
  on.look = look;
  clock.settle();
  expect(left.at(-1)).toEqual([18, null]);
  vi.advanceTimersByTime(1000);
  clock.write();
  expect(on.look?.seconds).toBeCloseTo(3);
});
