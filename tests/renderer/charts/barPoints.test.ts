import * as fc from "fast-check";
import { expect, test } from "vitest";
import { barPoints, barTicks, MOST_POINTS } from "../../../renderer/charts/barPoints.ts";

/** Mean and standard deviation (n − 1), straight from the definition. */
function figuresOf(offsets: readonly number[]) {
  const leanMs = offsets.reduce((sum, offset) => sum + offset, 0) / offsets.length;
  const squares = offsets.reduce((sum, offset) => sum + (offset - leanMs) ** 2, 0);
  return { count: offsets.length, leanMs, spreadMs: Math.sqrt(squares / (offsets.length - 1)) };
}

test("up to the most points every bar is its own, with its own figures", () => {
  const perBar = Array.from({ length: MOST_POINTS }, (_, bar) => ({
    bar: bar + 1,
    count: 8,
    leanMs: bar,
    spreadMs: 3,
  }));
  expect(barPoints(perBar)).toEqual(
    perBar.map(({ bar, count, leanMs, spreadMs }) => ({ fromBar: bar, toBar: bar, count, leanMs, spreadMs })),
  );
});

test("joined bars have the mean and spread of all their strokes together", () => {
  const offset = fc.integer({ min: -80, max: 80 });
  const bars = fc.array(fc.array(offset, { minLength: 2, maxLength: 6 }), {
    minLength: MOST_POINTS + 1,
    maxLength: 300,
  });
  fc.assert(
    fc.property(bars, (strokes) => {
      const points = barPoints(strokes.map((offsets, bar) => ({ bar: bar + 1, ...figuresOf(offsets) })));
      expect(points.length).toBeLessThanOrEqual(MOST_POINTS);
      expect(points.at(-1)?.toBar).toBe(strokes.length);
      for (const point of points) {
        const together = figuresOf(strokes.slice(point.fromBar - 1, point.toBar).flat());
        expect(point.count).toBe(together.count);
        expect(point.leanMs).toBeCloseTo(together.leanMs, 6);
        expect(point.spreadMs).toBeCloseTo(together.spreadMs, 6);
      }
    }),
    { numRuns: 25 },
  );
});

test("bars without strokes are a gap, not a nought, and do not weigh on their neighbours", () => {
  const silent = { count: 0, leanMs: null, spreadMs: null };
  const perBar = Array.from({ length: 240 }, (_, bar) =>
    bar < 2 || bar === 3 ? { bar: bar + 1, ...silent } : { bar: bar + 1, count: 4, leanMs: 10, spreadMs: 2 },
  );
  const points = barPoints(perBar);
  expect(points[0]).toEqual({ fromBar: 1, toBar: 2, ...silent });
  expect(points[1]).toMatchObject({ fromBar: 3, toBar: 4, count: 4, leanMs: 10 });
  expect(points[1]?.spreadMs).toBeCloseTo(2, 9);
});

test("ticks stand where phrases begin", () => {
  expect(barTicks(1, 12)).toHaveLength(12);
  expect(barTicks(1, 32)).toEqual([1, 5, 9, 13, 17, 21, 25, 29]);
  expect(barTicks(1, 1)).toEqual([1]);
});
