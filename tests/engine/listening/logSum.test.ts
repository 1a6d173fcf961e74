import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { logAdd, logSum } from "../../../engine/listening/logSum.ts";

const log = fc.double({ min: -800, max: 800, noNaN: true });

describe("sums of numbers given by their logarithms", () => {
  test.each([
    { logs: [Math.log(2), Math.log(3)], sum: Math.log(5) },
    { logs: [1000, 1000], sum: 1000 + Math.log(2) },
    { logs: [Number.NEGATIVE_INFINITY, 4], sum: 4 },
    { logs: [Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY], sum: Number.NEGATIVE_INFINITY },
    { logs: [], sum: Number.NEGATIVE_INFINITY },
  ])("of $logs", ({ logs, sum }) => {
    expect(logSum(logs)).toBeCloseTo(sum, 12);
    expect(logs.reduce((all, one) => logAdd(all, one), Number.NEGATIVE_INFINITY)).toBeCloseTo(sum, 12);
  });

  test("added one by one, they are what they are all at once", () => {
    fc.assert(
      fc.property(fc.array(log, { maxLength: 20 }), (logs) => {
        const added = logs.reduce((all, one) => logAdd(all, one), Number.NEGATIVE_INFINITY);
        expect(added === logSum(logs) || Math.abs(added - logSum(logs)) < 1e-9).toBe(true);
      }),
    );
  });
});
