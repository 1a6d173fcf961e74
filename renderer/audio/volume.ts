/**
 * How loud the program may be: a volume in steps of 3 dB, and a ceiling that nothing gets over.
 * A step is 3 dB because that is what the published exposure limits count in: one step louder halves the time.
 */

/** From silence to the loudest. */
export const VOLUME_STEPS = 10;
export const STEP_DB = 3;
/** Where the volume stands when the program is opened: low, whatever it was the last time. Our choice. */
export const FIRST_VOLUME = 4;
/** The hardest single stroke at the loudest volume, decibels of full scale: room for a chord of limbs below the ceiling. */
const FULL_STROKE_DBFS = -9;
/** No sample that leaves the program is larger, whatever is played at once. Our choice: half of full scale. */
export const CEILING = 0.5;
/** Up to this share of the ceiling nothing is changed. */
const KNEE = 0.7;
/** Input to the ceiling that is told apart; beyond it the ceiling holds just the same. */
const WIDEST_INPUT = 8;
/** Points of the curve on either side of nought: the straight part falls on points, so it stays straight. */
const POINTS = 4096;

/** The factor of a volume step; 0 is silence. */
export function volumeGain(step: number): number {
  return step <= 0 ? 0 : 10 ** (((step - VOLUME_STEPS) * STEP_DB + FULL_STROKE_DBFS) / 20);
}

/** The volume in words, beside its number. */
export function volumeWords(step: number): string {
  if (step <= 0) return "silent";
  if (step === 1) return "quietest";
  if (step <= 3) return "very quiet";
  if (step <= 5) return "quiet";
  if (step <= 7) return "medium";
  return step < VOLUME_STEPS ? "loud" : "loudest";
}

/** What becomes of a sample at the ceiling: itself when small, bent smoothly above, never over {@link CEILING}. */
export function underCeiling(sample: number): number {
  const size = Math.abs(sample);
  const straight = KNEE * CEILING;
  if (size <= straight) return sample;
  const room = CEILING - straight;
  return Math.sign(sample) * (straight + room * Math.tanh((size - straight) / room));
}

/**
 * Between what is played and the loudspeakers. It bends samples one by one and so adds no delay, as a compressor
 * that looks ahead would (6 ms in Chromium).
 */
export function connectCeiling(context: BaseAudioContext, out: AudioNode): AudioNode {
  const narrow = new GainNode(context, { gain: 1 / WIDEST_INPUT });
  const curve = Float32Array.from({ length: 2 * POINTS + 1 }, (_, index) =>
    underCeiling(((index - POINTS) / POINTS) * WIDEST_INPUT),
  );
  narrow.connect(new WaveShaperNode(context, { curve, oversample: "none" })).connect(out);
  return narrow;
}
