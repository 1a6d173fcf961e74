/**
 * Question: when does a sound begin in what the microphone heard?
 * A click and a stick are found alike: from the loudest moment back to where the sound rises out of the noise before it.
 */
import { median, type Seconds } from "../../engine/units/index.ts";

/** A stretch of samples, with the audio time of the first. */
export interface Heard {
  readonly from: Seconds;
  readonly samples: Float32Array;
  readonly sampleRate: number;
}

/**
 * The rise begins at a tenth of the peak, or where the noise ends. Our choice: a click and a stick both pass it within
 * half a millisecond.
 */
const RISE_SHARE = 0.1;
/** Times the median size of the noise: 4.7 standard deviations of a normal one, passed by one sample in 400,000. */
const NOISE_TIMES = 7;
/** The peak must stand twice as high, 19 dB above the noise, or the onset cannot be placed. */
const LEAST_ABOVE = 2;
/** Digital silence has no noise to stand above: this is −80 dB of full scale. */
const LEAST_NOISE = 1e-4;
/** Softer for so long, and the sound before it is another. Our choice: half a period of 125 Hz, the body of a pad. */
const QUIET_SECONDS: Seconds = 0.004;
/** What comes sooner than this is taken for the noise of the room. */
export const NOISE_SECONDS: Seconds = 0.05;

/**
 * The audio time at which a sound begins; `undefined` where nothing stands clear of the noise.
 *
 * @param heard its first {@link NOISE_SECONDS} hold only the noise of the room.
 */
export function onsetIn({ from, samples, sampleRate }: Heard): Seconds | undefined {
  const sizes = Array.from(samples, Math.abs);
  const noiseSamples = Math.floor(NOISE_SECONDS * sampleRate);
  if (sizes.length <= noiseSamples) return undefined;
  const noise = Math.max(median(sizes.slice(0, noiseSamples)), LEAST_NOISE);
  const loudest = indexOfLargest(sizes, noiseSamples);
  const peak = sizes[loudest] ?? 0;
  if (peak < LEAST_ABOVE * NOISE_TIMES * noise) return undefined;
  const threshold = Math.max(RISE_SHARE * peak, NOISE_TIMES * noise);
  const quietSamples = QUIET_SECONDS * sampleRate;
  let onset = loudest;
  for (let at = loudest; at >= 0 && onset - at < quietSamples; at -= 1) {
    if ((sizes[at] ?? 0) >= threshold) onset = at;
  }
  return from + onset / sampleRate;
}

function indexOfLargest(sizes: readonly number[], from: number): number {
  let largest = from;
  for (let at = from; at < sizes.length; at += 1) {
    if ((sizes[at] ?? 0) > (sizes[largest] ?? 0)) largest = at;
  }
  return largest;
}
