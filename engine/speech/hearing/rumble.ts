/**
 * What lies below every voice: rumble, drift and the lowest end of pink noise.
 * Method: a low-pass and a high-pass of Butterworth of the fourth order at one frequency, two sections each (bilinear; sections
 * after Bristow-Johnson's *Audio EQ Cookbook*). Their powers add up to that of the whole, so nothing is counted twice or lost.
 */
import type { Sound } from "./sound.ts";

/** The deepest voice begins at some 65 Hz; 45 Hz leave it whole. Our choice. */
const HIGHEST_RUMBLE_HZ = 45;
/** Quality of the two sections of a filter of the fourth order: 1 / (2 cos(π/8)) and 1 / (2 cos(3π/8)). */
const QUALITIES = [0.541196, 1.306563] as const;

export interface RumbleApart {
  /** What lies below. A constant offset of the samples is no part of it. */
  readonly rumble: Sound;
  /** Everything else. */
  readonly above: Sound;
}

/** A sound in two: its rumble, and everything above. */
export function rumbleApart({ samples, sampleRate }: Sound): RumbleApart {
  const offset = samples.reduce((sum, sample) => sum + sample, 0) / Math.max(1, samples.length);
  const centred = Float64Array.from(samples, (sample) => sample - offset);
  const turn = (2 * Math.PI * Math.min(HIGHEST_RUMBLE_HZ, sampleRate / 4)) / sampleRate;
  const cos = Math.cos(turn);
  const low = filtered(centred, turn, [(1 - cos) / 2, 1 - cos, (1 - cos) / 2]);
  const high = filtered(centred, turn, [(1 + cos) / 2, -1 - cos, (1 + cos) / 2]);
  return {
    rumble: { samples: Float32Array.from(low), sampleRate },
    above: { samples: Float32Array.from(high), sampleRate },
  };
}

/** Both sections, one after the other; `ahead` weighs a sample and the two before it. */
function filtered(
  samples: Float64Array,
  turn: number,
  ahead: readonly [number, number, number],
): Float64Array {
  return QUALITIES.reduce((all, quality) => section(all, turn, quality, ahead), samples);
}

function section(
  samples: Float64Array,
  turn: number,
  quality: number,
  [now, before, twoBefore]: readonly [number, number, number],
): Float64Array {
  const alpha = Math.sin(turn) / (2 * quality);
  const back = 2 * Math.cos(turn);
  let in1 = 0;
  let in2 = 0;
  let out1 = 0;
  let out2 = 0;
  return samples.map((sample) => {
    const out =
      (now * sample + before * in1 + twoBefore * in2 + back * out1 - (1 - alpha) * out2) / (1 + alpha);
    in2 = in1;
    in1 = sample;
    out2 = out1;
    out1 = out;
    return out;
  });
}
