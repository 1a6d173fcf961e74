/** How loud a sound is over time, and what of it is the noise of the room. */
import { median, type Seconds } from "../../units/index.ts";
import type { Sound } from "./sound.ts";

/** Mean square of each stretch of `seconds`, one after the other. */
export function powers({ samples, sampleRate }: Sound, seconds: Seconds): readonly number[] {
  const length = Math.max(1, Math.round(seconds * sampleRate));
  return Array.from({ length: Math.floor(samples.length / length) }, (_, at) => {
    let sum = 0;
    for (let offset = at * length; offset < (at + 1) * length; offset += 1)
      sum += (samples[offset] ?? 0) ** 2;
    return sum / length;
  });
}

/** The quietest tenth of the stretches says what the noise is; louder by more than this is no noise any more. Our choice. */
const NOISE_REACH = 4;
const QUIET_SHARE = 0.1;

/** The power of the noise between what is said: the mean of the stretches near the quietest ones. */
export function noisePower(all: readonly number[]): number {
  const sorted = [...all].sort((a, b) => a - b);
  const quiet = median(sorted.slice(0, Math.max(1, Math.ceil(sorted.length * QUIET_SHARE))));
  const near = sorted.filter((power) => power <= quiet * NOISE_REACH);
  return near.reduce((sum, power) => sum + power, 0) / Math.max(1, near.length);
}

export function decibels(ratio: number): number {
  return 10 * Math.log10(ratio);
}
