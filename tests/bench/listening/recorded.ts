/**
 * What was last measured at full size, by row. The small table fails when its whole interval lies on the worse side of
 * what is recorded here. Record anew after every change that is meant to change what is heard:
 *
 *     THRONESIDE_BENCH=full npx vitest run tests/bench/listening/table
 */
import type { Row } from "./row.ts";

export const RECORDED_ON = "2026-11-26";

const RECORDED: Readonly<Record<string, number>> = {
  "other players, 3 references, whole take of 16 bars": 0.925,
  "other players, 3 references, 8 bars": 0.975,
  "other players, 3 references, 4 bars": 0.95,
  "other players, 3 references, 2 bars": 0.875,
  "other players, 1 reference, 8 bars": 0.975,
  "other players, 3 references, 8 bars, 10 % left out, 5 % added, 12 ms jitter": 0.9,
  "none I know, other players, 8 bars, AUROC": 0.917,
  "known or not, other players, 8 bars, balanced accuracy": 0.825,
  "other players, 8 bars, the 80 % it is surest of": 1.0,
  "chances, other players, calibration error": 0.077,
  "windows of long human takes, 3 references, 8 bars": 0.98,
  "none I know, windows of long human takes, AUROC": 0.941,
  "known or not, windows of long human takes, balanced accuracy": 0.848,
  "chances, windows of long human takes, calibration error": 0.049,
  "pulse, 8 bars, accuracy 1": 0.859,
  "pulse, 8 bars, accuracy 2": 1.0,
  "pulse, 8 bars, downbeat within 70 ms": 0.682,
  "pulse, 8 bars, beat F-measure": 0.936,
  "pulse, 8 bars, CMLt": 0.843,
  "pulse, 8 bars, AMLt": 0.982,
  "pulse, 8 bars, information gain": 0.665,
  "pulse, 4 bars, accuracy 1": 0.857,
  "pulse, 4 bars, accuracy 2": 0.98,
  "pulse, 4 bars, downbeat within 70 ms": 0.694,
  "pulse, 4 bars, beat F-measure": 0.87,
  "pulse, 4 bars, CMLt": 0.781,
  "pulse, 4 bars, AMLt": 0.957,
  "pulse, 4 bars, information gain": 0.712,
  "catalogue, the time on the other cymbal, 8 bars": 0.833,
  "catalogue, the time on the other cymbal, 4 bars": 0.9,
  "catalogue, the time on the other cymbal, 2 bars": 0.867,
  "catalogue, as written, 8 bars": 0.983,
  "chances, catalogue, calibration error": 0.091,
  "catalogue, 8 bars with a fill in bar 4 or 8": 0.983,
  "catalogue, counted in, 8 bars": 0.983,
  "catalogue, counted in, 8 bars, downbeat within 70 ms": 1.0,
  "rubato ±10 % over 8 bars, share of beats within 70 ms": 0.584,
  "rubato ±10 % over 8 bars, named rightly": 0.875,
  "steady tempo, 8 bars, share of beats within 70 ms": 0.999,
  "steady tempo, 8 bars, named rightly": 1.0,
  "sudden change of tempo by 10 to 25 %, live, locked after 2 bars": 0.0,
  "steady tempo, live, locked": 0.958,
  "sudden change of tempo, the whole take, share of beats within 70 ms from 2 bars after it": 0.549,
};

/** Where lower is better, the row's target says so. */
function lowerIsBetter({ target }: Row): boolean {
  return target?.atMost !== undefined;
}

/**
 * A sentence for every row that is worse than recorded by more than its interval, or that nothing is recorded for.
 */
export function worseThanRecorded(
  rows: readonly Row[],
  figures: Readonly<Record<string, number>> = RECORDED,
): readonly string[] {
  return rows.flatMap((row) => {
    const recorded = figures[row.what];
    if (recorded === undefined) return [`"${row.what}" (${row.figure.toFixed(3)}) is not recorded: add it.`];
    const worse = lowerIsBetter(row) ? row.low > recorded : row.high < recorded;
    return worse
      ? [
          `"${row.what}" is ${row.figure.toFixed(3)} [${row.low.toFixed(3)}, ${row.high.toFixed(3)}], recorded ${recorded} on ${RECORDED_ON}.`,
        ]
      : [];
  });
}
