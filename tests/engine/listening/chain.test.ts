import fc from "fast-check";
import { expect, test } from "vitest";
import { ANYTHING, type Chain, type TakenBeats, walkLog } from "../../../engine/listening/chain.ts";

const NEVER = Number.NEGATIVE_INFINITY;

/** Three beats in a row, begun with the first. */
const ROW: Chain = {
  rows: Int32Array.of(0, 1, ANYTHING),
  before: Int32Array.of(-1, 0, 1),
  begins: Float64Array.of(0, NEVER, NEVER),
  entered: Float64Array.of(NEVER, NEVER, NEVER),
};

/** Beats of which each row says what is given, and nothing else is played. */
function taken(byRow: readonly (readonly number[])[], anything: number): TakenBeats {
  const count = byRow[0]?.length ?? 0;
  return {
    count,
    byRow: Float64Array.from(byRow.flat()),
    anything: new Float64Array(count).fill(anything),
    else: [new Float64Array(count).fill(NEVER)],
  };
}

test("a row is walked beat by beat, and ends with whatever is played", () => {
  const log = walkLog(
    ROW,
    taken(
      [
        [-1, -9, -9],
        [-9, -2, -9],
      ],
      -3,
    ),
  );
  expect(log).toBeCloseTo(-1 - 2 - 3 + 2 * Math.log(0.98));
});

test("what is played for something else does not lose the place", () => {
  const beats = taken(
    [
      [-1, -90, -90],
      [-90, -90, -90],
    ],
    -3,
  );
  const elsewhere = { ...beats, else: [Float64Array.of(NEVER, -5, NEVER)] };
  expect(walkLog(ROW, elsewhere)).toBeCloseTo(-1 - 5 - 3 + Math.log(0.98));
});

test("what goes round is gone on with; where another may be entered, it is at its price", () => {
  const two: Chain = {
    rows: Int32Array.of(0, 1),
    before: Int32Array.of(0, 1),
    begins: Float64Array.of(0, 0),
    entered: Float64Array.of(-4, -4),
  };
  const beats = taken(
    [
      [0, 0, -9, -9],
      [-9, -9, 0, 0],
    ],
    -99,
  );
  expect(walkLog(two, beats)).toBeCloseTo(2 * Math.log(0.98) - 4);
});

test("a walk is never likelier than the best each beat has, nor less likely for a likelier beat", () => {
  const logs = fc.array(fc.double({ min: -50, max: 0, noNaN: true }), { minLength: 3, maxLength: 3 });
  fc.assert(
    fc.property(
      logs,
      logs,
      fc.double({ min: -50, max: 0, noNaN: true }),
      fc.nat({ max: 5 }),
      (one, other, any, at) => {
        const log = walkLog(ROW, taken([one, other], any));
        const best = [0, 1, 2].reduce(
          (sum, beat) => sum + Math.max(one[beat] ?? 0, other[beat] ?? 0, any),
          0,
        );
        expect(log).toBeLessThanOrEqual(best + 1e-9);
        const likelier = [one, other].map((row, index) =>
          row.map((each, beat) => (index * 3 + beat === at ? 0 : each)),
        );
        expect(walkLog(ROW, taken(likelier, any))).toBeGreaterThanOrEqual(log - 1e-9);
      },
    ),
  );
});
