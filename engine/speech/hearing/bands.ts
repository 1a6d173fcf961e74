/**
 * What was heard as power in bands, frame by frame: the bands are as wide as the ear's.
 * Source: the mel scale after O'Shaughnessy 1987, 2595 · log10(1 + f/700); triangular bands and the cosine transform of their
 * logarithms after Davis & Mermelstein, IEEE Trans. ASSP 28 (1980) 357.
 */
import type { Seconds } from "../../units/index.ts";
import { HEARING_RATE } from "./resample.ts";
import { Spectrum } from "./spectrum.ts";

export const BANDS = 26;
const LOWEST_HZ = 100;
const HIGHEST_HZ = 7600;
export const HOP_SECONDS: Seconds = 0.005;
const HOP = HOP_SECONDS * HEARING_RATE;
const WINDOW = 0.02 * HEARING_RATE;

/** Power in each band. */
export type Frame = Float64Array;

function mel(hz: number): number {
  return 2595 * Math.log10(1 + hz / 700);
}

function hertz(mels: number): number {
  return 700 * (10 ** (mels / 2595) - 1);
}

interface Band {
  readonly firstBin: number;
  readonly weights: readonly number[];
}

function bandsFor(size: number): readonly Band[] {
  const edge = (at: number): number =>
    hertz(mel(LOWEST_HZ) + ((mel(HIGHEST_HZ) - mel(LOWEST_HZ)) * at) / (BANDS + 1));
  const hzPerBin = HEARING_RATE / size;
  return Array.from({ length: BANDS }, (_, band) => {
    const low = edge(band);
    const centre = edge(band + 1);
    const high = edge(band + 2);
    const firstBin = Math.ceil(low / hzPerBin);
    const lastBin = Math.floor(high / hzPerBin);
    const weights = Array.from({ length: lastBin - firstBin + 1 }, (_, at) => {
      const hz = (firstBin + at) * hzPerBin;
      return hz <= centre ? (hz - low) / (centre - low) : (high - hz) / (high - centre);
    });
    return { firstBin, weights };
  });
}

/** The bands of a sound at the hearing's rate; frame `k` lies around the moment `k · HOP_SECONDS`. */
export function framesOf(samples: Float32Array): readonly Frame[] {
  const spectrum = new Spectrum(WINDOW);
  const bands = bandsFor(spectrum.size);
  return Array.from({ length: Math.floor(samples.length / HOP) + 1 }, (_, at) => {
    const power = spectrum.power(samples, at * HOP - WINDOW / 2);
    return Float64Array.from(bands, ({ firstBin, weights }) =>
      weights.reduce((sum, weight, bin) => sum + weight * (power[firstBin + bin] ?? 0), 0),
    );
  });
}

export function powerOf(frame: Frame): number {
  return frame.reduce((sum, power) => sum + power, 0);
}

/** The mean of frames, band by band; silence for none. */
export function meanFrame(frames: readonly Frame[]): Frame {
  const sum = new Float64Array(BANDS);
  for (const frame of frames)
    for (let band = 0; band < BANDS; band += 1) sum[band] = (sum[band] ?? 0) + (frame[band] ?? 0);
  return sum.map((each) => each / Math.max(1, frames.length));
}

/** Cepstral coefficients kept: the shape of the spectrum, without the voice's own pitch. */
export const COEFFICIENTS = 13;
/** How much the loudness of a frame counts beside its shape. Our choice: people do not say a syllable equally loud each time. */
const LOUDNESS_WEIGHT = 0.35;

const COSINES: readonly Float64Array[] = Array.from({ length: COEFFICIENTS }, (_, order) =>
  Float64Array.from(
    { length: BANDS },
    (_, band) =>
      Math.sqrt(2 / BANDS) *
      (order === 0 ? LOUDNESS_WEIGHT / Math.SQRT2 : 1) *
      Math.cos((Math.PI * order * (band + 0.5)) / BANDS),
  ),
);

/** Shape and loudness of a frame: cepstral coefficients of its bands. */
export function cepstrumOf(frame: Frame): Float64Array {
  const logs = frame.map((power) => Math.log(power));
  return Float64Array.from(COSINES, (cosines) =>
    cosines.reduce((sum, cosine, band) => sum + cosine * (logs[band] ?? 0), 0),
  );
}
