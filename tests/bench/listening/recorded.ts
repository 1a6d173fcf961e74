/**
 * What was last measured at full size, by row. The small table fails when its whole interval lies on the worse side of
 * what is recorded here, which has an interval of its own. Record anew after every change that is meant to change what is heard:
 *
 *     THRONESIDE_BENCH=full npx vitest run tests/bench/listening/table
 */
import type { Row } from "./row.ts";

export const RECORDED_ON = "2026-11-27";

const RECORDED: Readonly<Record<string, number>> = {
  "other players, 3 references, whole take of 16 bars": 0.9972,
  "other players, 3 references, 8 bars": 0.9917,
  "other players, 3 references, 4 bars": 0.9889,
  "other players, 3 references, 2 bars": 0.9431,
  "other players, 1 reference, 8 bars": 0.9681,
  "other players, 3 references, 8 bars, 10 % left out, 5 % added, 12 ms jitter": 0.9931,
  "none I know, other players, 8 bars, AUROC": 0.9838,
  "known or not, other players, 8 bars, balanced accuracy": 0.9389,
  "other players, 8 bars, the 80 % it is surest of": 0.9983,
  "chances, other players, calibration error": 0.0128,
  "windows of long human takes, 3 references, 8 bars": 0.9411,
  "none I know, windows of long human takes, AUROC": 0.9474,
  "known or not, windows of long human takes, balanced accuracy": 0.8764,
  "chances, windows of long human takes, calibration error": 0.0284,
  "pulse, 8 bars, accuracy 1": 0.9397,
  "pulse, 8 bars, accuracy 1, where the back-beat agrees with the click": 0.9655,
  "pulse, 8 bars, accuracy 2": 0.9956,
  "pulse, 8 bars, downbeat within 70 ms": 0.8603,
  "pulse, 8 bars, downbeat within 70 ms, where the crashes agree with the click": 0.9063,
  "pulse, 8 bars, beat F-measure": 0.9541,
  "pulse, 8 bars, CMLt": 0.9224,
  "pulse, 8 bars, AMLt": 0.9844,
  "pulse, 8 bars, information gain": 0.6744,
  "pulse, 4 bars, accuracy 1": 0.926,
  "pulse, 4 bars, accuracy 1, where the back-beat agrees with the click": 0.9741,
  "pulse, 4 bars, accuracy 2": 0.9923,
  "pulse, 4 bars, downbeat within 70 ms": 0.8342,
  "pulse, 4 bars, downbeat within 70 ms, where the crashes agree with the click": 0.8696,
  "pulse, 4 bars, beat F-measure": 0.9374,
  "pulse, 4 bars, CMLt": 0.8962,
  "pulse, 4 bars, AMLt": 0.977,
  "pulse, 4 bars, information gain": 0.7387,
  "catalogue, the time on the other cymbal, 8 bars": 1,
  "catalogue, the time on the other cymbal, 4 bars": 0.9967,
  "catalogue, the time on the other cymbal, 2 bars": 0.9883,
  "catalogue, as written, 8 bars": 1,
  "chances, catalogue, calibration error": 0.012,
  "catalogue, 8 bars with a fill in bar 4 or 8": 1,
  "catalogue, counted in, 8 bars": 1,
  "catalogue, counted in, 8 bars, downbeat within 70 ms": 0.9883,
  "rubato ±10 % over 8 bars, share of beats within 70 ms": 0.9448,
  "rubato ±10 % over 8 bars, named rightly": 0.9667,
  "steady tempo, 8 bars, share of beats within 70 ms": 0.9995,
  "steady tempo, 8 bars, named rightly": 0.9967,
  "sudden change of tempo by 10 to 25 %, live, locked after 2 bars": 0.9067,
  "steady tempo, live, locked": 1,
  "sudden change of tempo, the whole take, share of beats within 70 ms from 2 bars after it": 0.9825,
  "fills, bars of a plain groove that are called fills": 0.0003,
  "fills of the catalogue, found within a beat": 0.97,
  "fills of two beats and more, found within a beat": 0.9778,
  "fills of two beats and more, which one is said rightly, of the found": 0.9319,
  "fills, which one is right when one is said": 1,
  "count-in, its strokes heard": 0.9617,
  "count-in heard where there is none": 0,
  "human fills of a bar in grooves of the catalogue, their end found": 0.9383,
};

/** What is recorded has an interval of its own: about so much to either side at full size. */
const OWN_INTERVAL = 0.02;

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
    const worse = lowerIsBetter(row) ? row.low > recorded + OWN_INTERVAL : row.high < recorded - OWN_INTERVAL;
    return worse
      ? [
          `"${row.what}" is ${row.figure.toFixed(3)} [${row.low.toFixed(3)}, ${row.high.toFixed(3)}], recorded ${recorded} on ${RECORDED_ON}.`,
        ]
      : [];
  });
}
