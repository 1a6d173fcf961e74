/**
 * A rendered stroke made ready to keep: as loud as a file may be, without silence before it or after it.
 */

/** The loudest sample of a file, dB of full scale: a little room, so that a converter between samples does not clip. */
export const PEAK_DBFS = -1;
/** What is softer than this, dB of full scale, is silence at either end. */
export const SILENCE_DBFS = -60;

export function fromDecibels(decibels: number): number {
  return 10 ** (decibels / 20);
}

/** The loudest sample, from 0 up. */
export function peakOf(samples: Float32Array): number {
  return samples.reduce((peak, sample) => Math.max(peak, Math.abs(sample)), 0);
}

/**
 * The samples at {@link PEAK_DBFS}, from the first above {@link SILENCE_DBFS} to the last above it.
 *
 * @throws RangeError for silence.
 */
export function shaped(samples: Float32Array): Float32Array {
  const peak = peakOf(samples);
  if (peak === 0) throw new RangeError("There is nothing but silence: the bank has no sound for this key.");
  const loud = samples.map((sample) => (sample * fromDecibels(PEAK_DBFS)) / peak);
  const isHeard = (sample: number): boolean => Math.abs(sample) > fromDecibels(SILENCE_DBFS);
  return loud.slice(loud.findIndex(isHeard), loud.findLastIndex(isHeard) + 1);
}

/** The samples as 16-bit whole numbers, rounded to the nearest. */
export function sixteenBit(samples: Float32Array): Int32Array<ArrayBuffer> {
  return Int32Array.from(samples, (sample) => Math.round(Math.max(-1, Math.min(1, sample)) * 32_767));
}
