/**
 * How fast this machine is, so that times measured on different ones compare: the time of a fixed piece of work, of the
 * kind listening does most of (a circular correlation of doubles). Our choice.
 */
import type { Milliseconds } from "../../engine/units/index.ts";

const PLACES = 672;
const ROUNDS = 40;

/** The best of nine runs: another program's work is none of ours. */
export function machineUnitMs(): Milliseconds {
  const rates = Float64Array.from({ length: 2 * PLACES }, (_, place) => Math.log(1 + (place % 7)));
  const counts = Float64Array.from({ length: PLACES }, (_, place) => place % 3);
  let kept = 0;
  const runs = Array.from({ length: 9 }, () => {
    const from = performance.now();
    for (let round = 0; round < ROUNDS; round += 1) {
      for (let turn = 0; turn < 48; turn += 1) {
        let sum = 0;
        for (let place = 0; place < PLACES; place += 1) {
          sum += (counts[place] ?? 0) * (rates[place + turn] ?? 0);
        }
        kept += sum;
      }
    }
    return performance.now() - from;
  });
  if (!Number.isFinite(kept)) throw new Error("The work came to no number.");
  return Math.min(...runs);
}
