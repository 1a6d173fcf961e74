/**
 * Sound at the one rate at which syllables are heard: speech has nothing above 8 kHz that tells syllables apart.
 * Method: band-limited interpolation with a windowed sinc (Smith & Gossett, ICASSP 1984), Hann window, 16 zero crossings.
 */
import type { Sound } from "./sound.ts";

export const HEARING_RATE = 16_000;
const CROSSINGS = 16;

/** The same sound at {@link HEARING_RATE}. */
export function atHearingRate({ samples, sampleRate }: Sound): Float32Array {
  if (sampleRate === HEARING_RATE) return samples;
  const step = sampleRate / HEARING_RATE;
  // Going down, what the lower rate cannot hold is taken away first.
  const cutoff = Math.min(1, 1 / step);
  const reach = CROSSINGS / cutoff;
  const result = new Float32Array(Math.floor(samples.length / step));
  for (let at = 0; at < result.length; at += 1) {
    const centre = at * step;
    const first = Math.max(0, Math.ceil(centre - reach));
    const last = Math.min(samples.length - 1, Math.floor(centre + reach));
    let sum = 0;
    for (let tap = first; tap <= last; tap += 1) {
      const away = tap - centre;
      const window = 0.5 + 0.5 * Math.cos((Math.PI * away) / reach);
      sum += (samples[tap] ?? 0) * cutoff * sinc(cutoff * away) * window;
    }
    result[at] = sum;
  }
  return result;
}

function sinc(x: number): number {
  return x === 0 ? 1 : Math.sin(Math.PI * x) / (Math.PI * x);
}
