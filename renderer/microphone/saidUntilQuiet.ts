/**
 * Question: has what is being said come to its end?
 * The loudness of each twentieth of a second against the loudest and the quietest so far.
 */
import type { Seconds } from "../../engine/units/index.ts";

const STEP_SECONDS: Seconds = 0.05;
/** Something was said once the loudest stands so many times above the quietest, in power: 13 dB. Our choice. */
const SAID_TIMES = 20;
/** −60 dB of full scale. */
const LEAST_POWER = 1e-6;
/** It is quiet again where the power has come down by so much from the loudest: 14 dB. Our choice. */
const QUIET_SHARE = 0.04;

/**
 * `said` tells whether anything was, `quietSeconds` how long it has been quiet since.
 *
 * @example
 * saidSoFar({ samples: new Float32Array(4800), sampleRate: 48000 }) // => { said: false, quietSeconds: 0 }
 */
export function saidSoFar({
  samples,
  sampleRate,
}: {
  readonly samples: Float32Array;
  readonly sampleRate: number;
}): { readonly said: boolean; readonly quietSeconds: Seconds } {
  const length = Math.round(STEP_SECONDS * sampleRate);
  const powers = Array.from({ length: Math.floor(samples.length / length) }, (_, at) => {
    let sum = 0;
    for (const sample of samples.subarray(at * length, (at + 1) * length)) sum += sample * sample;
    return sum / length;
  });
  const loudest = powers.reduce((most, power) => Math.max(most, power), 0);
  const quietest = powers.reduce((least, power) => Math.min(least, power), Number.POSITIVE_INFINITY);
  if (loudest < LEAST_POWER || loudest < SAID_TIMES * quietest) return { said: false, quietSeconds: 0 };
  const last = powers.findLastIndex((power) => power > QUIET_SHARE * loudest);
  return { said: true, quietSeconds: (powers.length - 1 - last) * STEP_SECONDS };
}
