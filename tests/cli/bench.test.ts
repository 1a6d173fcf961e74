import { expect, test } from "vitest";
import { z } from "zod";
import { shareOf } from "../../cli/bench/share.ts";
import { costsOf, untilTimeIsUp } from "../../cli/bench/stopwatch.ts";
import { run } from "./program.ts";

const cost = z.number().positive();
const share = z.strictObject({
  right: z.int().min(0),
  asked: z.int().min(1),
  share: z.number().min(0).max(1),
  low: z.number().min(0).max(1),
  high: z.number().min(0).max(1),
});
const measured = z.strictObject({
  machine: z.strictObject({ node: z.string(), processors: z.int().min(1) }),
  strokesPerSecond: z.int().positive(),
  gradeHitP99Ms: cost,
  listenHitP99Ms: cost,
  rethinkMeanMs: cost,
  rethinkP95Ms: cost,
  hear8BarsMs: cost,
  hear32BarsMs: cost,
  align10000Ms: cost,
  align20000Ms: cost,
  named8Bars: share,
  named4Bars: share,
});

test("what is measured hangs together, and is there within half a minute", () => {
  const from = performance.now();
  const { code, stderr, lines } = run(["bench", "--json"]);
  const seconds = (performance.now() - from) / 1000;
  expect({ code, stderr }).toEqual({ code: 0, stderr: "" });
  expect(lines.length).toBe(1);
  const found = measured.parse(JSON.parse(lines[0] ?? ""));
  console.info(`bench took ${seconds.toFixed(1)} s: ${lines[0]}`);
  expect(seconds).toBeLessThan(30);
  expect(found.align20000Ms).toBeGreaterThan(found.align10000Ms);
  expect(found.hear32BarsMs).toBeGreaterThan(found.hear8BarsMs);
  for (const { right, asked, share: of, low, high } of [found.named8Bars, found.named4Bars]) {
    expect(right).toBeLessThanOrEqual(asked);
    expect(of).toBeCloseTo(right / asked, 4);
    expect(low).toBeLessThanOrEqual(of);
    expect(high).toBeGreaterThanOrEqual(of);
    expect(of).toBeGreaterThan(0.8);
  }
}, 180_000);

test("percentiles are by the nearest rank", () => {
  const costs = Array.from({ length: 200 }, (_, index) => 200 - index);
  expect(costsOf(costs)).toEqual({ count: 200, meanMs: 100.5, p95Ms: 190, p99Ms: 198 });
});

test("when the time is up no more is begun, but one thing is always done", () => {
  const done: number[] = [];
  untilTimeIsUp([1, 2, 3], -1, (thing) => done.push(thing));
  expect(done).toEqual([1]);
  untilTimeIsUp([4, 5], 180_000, (thing) => done.push(thing));
  expect(done).toEqual([1, 4, 5]);
});

// Newcombe, Statistics in Medicine 17 (1998), table I, method 3.
test.each([
  [81, 263, 0.2553, 0.3662],
  [15, 148, 0.0624, 0.1605],
  [0, 20, 0, 0.1611],
  [1, 29, 0.0061, 0.1718],
])("%i of %i: %f to %f", (right, asked, low, high) => {
  const found = shareOf(right, asked);
  expect(found.low).toBeCloseTo(low, 4);
  expect(found.high).toBeCloseTo(high, 4);
});
