/**
 * Question: at which rate must a recorded tom be played to sound at a given pitch?
 * Method: the pitch of a tom is the strongest partial of its first half second. (A struck head falls in pitch
 * while it rings, here by about a semitone and a half in 0.4 s: the pitch is that of the stroke as a whole, and the
 * fall is left in.) The rate is found by repetition, because at another rate the half second holds more or less of
 * the recording.
 */
import type { Seconds } from "../../engine/units/index.ts";

/** How much of a stroke the ear takes its pitch from. Our choice. */
export const PITCH_WINDOW_SECONDS: Seconds = 0.5;
/** Where a tom's fundamental is looked for. */
const LOWEST_HZ = 40;
const HIGHEST_HZ = 400;
/** Coarse to fine: half the width of a partial under the window first; 0.02 cents at 100 Hz last. */
const STEPS_HZ = [2, 0.1, 0.005, 0.001];
const REPETITIONS = 6;

/** The frequency of the strongest partial in the first `seconds`, under a Hann window. */
export function pitchHz(samples: Float32Array, sampleRateHz: number, seconds = PITCH_WINDOW_SECONDS): number {
  const length = Math.min(samples.length, Math.round(seconds * sampleRateHz));
  const windowed = samples
    .slice(0, length)
    .map((sample, index) => sample * 0.5 * (1 - Math.cos((2 * Math.PI * index) / length)));
  return STEPS_HZ.reduce(
    (around, stepHz) => {
      const best = strongest(windowed, sampleRateHz, around, stepHz);
      return { hertz: best, from: best - stepHz, to: best + stepHz };
    },
    { hertz: LOWEST_HZ, from: LOWEST_HZ, to: HIGHEST_HZ },
  ).hertz;
}

function strongest(
  samples: Float32Array,
  sampleRateHz: number,
  { from, to }: { readonly from: number; readonly to: number },
  stepHz: number,
): number {
  let best = { hertz: from, power: -1 };
  for (let hertz = from; hertz <= to; hertz += stepHz) {
    const power = powerAt(samples, hertz / sampleRateHz);
    if (power > best.power) best = { hertz, power };
  }
  return best.hertz;
}

/** The rate at which the recording sounds at `targetHz`. */
export function rateFor(samples: Float32Array, sampleRateHz: number, targetHz: number): number {
  let rate = 1;
  for (let repetition = 0; repetition < REPETITIONS; repetition += 1)
    rate = targetHz / pitchHz(samples, sampleRateHz, PITCH_WINDOW_SECONDS * rate);
  return rate;
}

/** Power at a frequency in cycles a sample: Goertzel's recurrence (Am. Math. Monthly 65, 1958). */
function powerAt(samples: Float32Array, cyclesPerSample: number): number {
  const twice = 2 * Math.cos(2 * Math.PI * cyclesPerSample);
  let last = 0;
  let before = 0;
  for (const sample of samples) {
    const next = sample + twice * last - before;
    before = last;
    last = next;
  }
  return last * last + before * before - twice * last * before;
}
