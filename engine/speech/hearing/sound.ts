import type { Seconds } from "../../units/index.ts";

/** One channel of sound; samples from −1 to 1. */
export interface Sound {
  readonly samples: Float32Array;
  readonly sampleRate: number;
}

export function soundSeconds({ samples, sampleRate }: Sound): Seconds {
  return samples.length / sampleRate;
}

/** The part from one moment to another, as far as it is there. */
export function partOf({ samples, sampleRate }: Sound, from: Seconds, to: Seconds): Sound {
  const first = Math.max(0, Math.round(from * sampleRate));
  return { samples: samples.subarray(first, Math.max(first, Math.round(to * sampleRate))), sampleRate };
}
