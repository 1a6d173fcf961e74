/**
 * The sampler as a browser renders it, measured: pitch, brightness, choke, ceiling.
 */
import { expect, type Page, test } from "@playwright/test";
import type { PlannedStroke } from "../../renderer/audio/strokePlayer.ts";
import { openWorkshop, type Workshop } from "./workshop.ts";

const RATE_HZ = 48_000;
let workshop: Workshop;
/** One for all: rendering leaves nothing behind, and the recordings are loaded once. */
let page: Page;

test.beforeAll(async ({ browser }) => {
  workshop = await openWorkshop();
  page = await browser.newPage();
  await page.goto(workshop.address);
  await page.evaluate(() => {
    window.asText = (samples) => {
      let bytes = "";
      for (const each of new Uint8Array(samples.buffer, samples.byteOffset, samples.byteLength))
        bytes += String.fromCharCode(each);
      return btoa(bytes);
    };
  });
});
test.afterAll(async () => {
  await page.close();
  await workshop.close();
});

declare global {
  interface Window {
    /** Samples as text in base 64: one by one it takes longer to hand them over than to render them. */
    asText: (samples: Float32Array) => string;
  }
}

interface Asked {
  readonly strokes: readonly PlannedStroke[];
  readonly seconds: number;
  readonly isTrueToPitch?: boolean;
  /** Through the volume at its loudest and the ceiling, instead of the sampler alone. */
  readonly isLoudest?: boolean;
  /** A hand on this voice, at this time. */
  readonly choke?: { readonly voice: PlannedStroke["voice"]; readonly at: number };
}

/** Renders strokes; gives both sides' samples. */
async function render(asked: Asked): Promise<readonly [Float32Array, Float32Array]> {
  const sides = await page.evaluate(
    async ({ strokes, seconds, isTrueToPitch, isLoudest, choke, rateHz }) => {
      const at = "/renderer/audio/";
      const { Sampler }: typeof import("../../renderer/audio/sampler.ts") = await import(`${at}sampler.ts`);
      const { loadKit }: typeof import("../../renderer/audio/recordedKit.ts") = await import(
        `${at}recordedKit.ts`
      );
      const { connectCeiling, volumeGain, VOLUME_STEPS }: typeof import("../../renderer/audio/volume.ts") =
        await import(`${at}volume.ts`);
      const context = new OfflineAudioContext(2, Math.round(seconds * rateHz), rateHz);
      const out = new GainNode(context, { gain: isLoudest ? volumeGain(VOLUME_STEPS) : 1 });
      out.connect(isLoudest ? connectCeiling(context, context.destination) : context.destination);
      let drawn = 0;
      const workshop: Window & { kit?: ReturnType<typeof loadKit> } = window;
      workshop.kit ??= loadKit();
      const sampler = new Sampler(context, out, await workshop.kit, () => (drawn++ * 0.37) % 1);
      for (const stroke of strokes) sampler.strike(stroke, stroke.time, isTrueToPitch);
      if (choke) sampler.choke(choke.voice, choke.at);
      const buffer = await context.startRendering();
      return [window.asText(buffer.getChannelData(0)), window.asText(buffer.getChannelData(1))] as const;
    },
    { ...asked, rateHz: RATE_HZ },
  );
  return [samplesOf(sides[0]), samplesOf(sides[1])];
}

function samplesOf(text: string): Float32Array {
  return new Float32Array(Uint8Array.from(Buffer.from(text, "base64")).buffer);
}

function sum([left, right]: readonly [Float32Array, Float32Array]): Float32Array {
  return left.map((sample, index) => sample + (right[index] ?? 0));
}

/** Amplitude at a frequency, by the plain sum of a discrete Fourier transform under a Hann window. */
function amplitudeAt(samples: Float32Array, hertz: number): number {
  let real = 0;
  let imaginary = 0;
  samples.forEach((sample, index) => {
    const windowed = sample * Math.sin((Math.PI * index) / samples.length) ** 2;
    const angle = (2 * Math.PI * hertz * index) / RATE_HZ;
    real += windowed * Math.cos(angle);
    imaginary -= windowed * Math.sin(angle);
  });
  return Math.hypot(real, imaginary);
}

/** The strongest frequency between two, to a hundredth of a hertz. */
function spectralPeakHz(samples: Float32Array, fromHz: number, toHz: number): number {
  let [from, to] = [fromHz, toHz];
  let best = from;
  for (const step of [1, 0.1, 0.01]) {
    let most = -1;
    for (let hertz = from; hertz <= to; hertz += step) {
      const amplitude = amplitudeAt(samples, hertz);
      if (amplitude > most) [most, best] = [amplitude, hertz];
    }
    [from, to] = [best - step, best + step];
  }
  return best;
}

/** Centre of gravity of the spectrum up to 16 kHz, in steps of 100 Hz. */
function centroidHz(samples: Float32Array): number {
  let weighted = 0;
  let total = 0;
  for (let hertz = 100; hertz <= 16_000; hertz += 100) {
    const amplitude = amplitudeAt(samples, hertz);
    weighted += amplitude * hertz;
    total += amplitude;
  }
  return weighted / total;
}

function peak(samples: Float32Array): number {
  return samples.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
}

/** Root mean square from one moment to another. */
function level(samples: Float32Array, from: number, to: number): number {
  const part = samples.slice(Math.round(from * RATE_HZ), Math.round(to * RATE_HZ));
  return Math.sqrt(part.reduce((sum, sample) => sum + sample * sample, 0) / part.length);
}

// Equal temperament, A4 = 440 Hz (ISO 16). The voices have three of the six toms; the others go by their key.
for (const [voice, key, name, hertz] of [
  ["floor-tom", 41, "C2", 65.4064],
  ["floor-tom", undefined, "E2", 82.4069],
  ["mid-tom", 45, "G2", 97.9989],
  ["mid-tom", undefined, "A sharp 2", 116.5409],
  ["high-tom", 48, "C sharp 3", 138.5913],
  ["high-tom", undefined, "E3", 164.8138],
] as const) {
  test(`the ${voice}${key === undefined ? "" : ` of key ${key}`} sounds at ${name} within ten cents`, async () => {
    const strokes = [{ time: 0, voice, velocity: 1, ...(key === undefined ? {} : { key }) }];
    const heard = sum(await render({ strokes, seconds: 0.5, isTrueToPitch: true }));
    const cents = 1200 * Math.log2(spectralPeakHz(heard, 50, 300) / hertz);
    test.info().annotations.push({ type: "cents", description: cents.toFixed(2) });
    expect(Math.abs(cents)).toBeLessThan(10);
  });
}

for (const voice of ["kick", "snare", "hi-hat-closed", "ride", "high-tom", "cross-stick"] as const) {
  test(`a ghost on the ${voice} is duller than an accent, not only softer`, async () => {
    const [ghost, accent] = await Promise.all(
      [0.25, 0.9].map(async (velocity) =>
        sum(await render({ strokes: [{ time: 0, voice, velocity }], seconds: 0.1, isTrueToPitch: true })),
      ),
    );
    if (!ghost || !accent) throw new Error("Two strokes were rendered.");
    const [dull, bright] = [centroidHz(ghost), centroidHz(accent)];
    test
      .info()
      .annotations.push({ type: "centroid", description: `${dull.toFixed(0)} < ${bright.toFixed(0)} Hz` });
    expect(dull).toBeLessThan(0.95 * bright);
    expect(20 * Math.log10(peak(ghost) / peak(accent))).toBeLessThan(-10);
  });
}

for (const stopping of ["hi-hat-pedal", "hi-hat-closed"] as const) {
  test(`an open hi-hat stopped by the ${stopping} leaves silence`, async () => {
    const open = { time: 0, voice: "hi-hat-open", velocity: 0.9 } as const;
    const alone = sum(await render({ strokes: [open], seconds: 0.8, isTrueToPitch: true }));
    const strokes = [open, { time: 0.3, voice: stopping, velocity: 0 } as const];
    const stopped = sum(await render({ strokes, seconds: 0.8, isTrueToPitch: true }));
    expect(level(stopped, 0.1, 0.29)).toBeCloseTo(level(alone, 0.1, 0.29), 6);
    expect(level(alone, 0.32, 0.8)).toBeGreaterThan(0.001);
    // The ramp takes 15 ms, the filter behind it a few more.
    expect(level(stopped, 0.32, 0.8)).toBeLessThan(1e-6);
  });
}

test("a hand on the crash stops it within 15 ms, and no other cymbal", async () => {
  const crash = { time: 0, voice: "crash-left", velocity: 0.9 } as const;
  const ride = { time: 0, voice: "ride", velocity: 0.9 } as const;
  const choke = { voice: "crash-left", at: 0.3 } as const;
  const both = sum(await render({ strokes: [crash, ride], seconds: 0.6, choke, isTrueToPitch: true }));
  const rideAlone = sum(await render({ strokes: [ride], seconds: 0.6, isTrueToPitch: true }));
  expect(level(both, 0.1, 0.3)).toBeGreaterThan(1.2 * level(rideAlone, 0.1, 0.3));
  expect(level(both, 0.32, 0.6)).toBeCloseTo(level(rideAlone, 0.32, 0.6), 6);
});

test("a stop scheduled before the stroke it stops still stops it", async () => {
  const strokes = [
    { time: 0.3, voice: "hi-hat-pedal", velocity: 0 },
    { time: 0, voice: "hi-hat-open", velocity: 0.9 },
  ] as const;
  const heard = sum(await render({ strokes, seconds: 0.6 }));
  expect(level(heard, 0, 0.3)).toBeGreaterThan(0.001);
  expect(level(heard, 0.32, 0.6)).toBeLessThan(1e-6);
});

test("the two crashes differ in place and in pitch", async () => {
  const of = (voice: "crash-left" | "crash-right") =>
    render({ strokes: [{ time: 0, voice, velocity: 0.9 }], seconds: 0.4, isTrueToPitch: true });
  const [left, right] = [await of("crash-left"), await of("crash-right")];
  expect(level(left[0], 0, 0.4)).toBeGreaterThan(1.5 * level(left[1], 0, 0.4));
  expect(level(right[1], 0, 0.4)).toBeGreaterThan(1.5 * level(right[0], 0, 0.4));
  const [low, high] = [centroidHz(sum(left)), centroidHz(sum(right))];
  test.info().annotations.push({ type: "centroid", description: `${low.toFixed(0)}, ${high.toFixed(0)} Hz` });
  expect(Math.abs(Math.log2(high / low))).toBeGreaterThan(3 / 12);
});

test("the click is one sound, placed where it is scheduled: accents louder and brighter, dry enough for sixteenths", async () => {
  const weights = ["accent", "beat", "between"] as const;
  const at = 0.2;
  const heard = await page.evaluate(
    async ({ weights, at, rateHz }) => {
      const folder = "/renderer/audio/";
      const { clickSound }: typeof import("../../renderer/audio/clickSound.ts") = await import(
        `${folder}clickSound.ts`
      );
      const { loadKit }: typeof import("../../renderer/audio/recordedKit.ts") = await import(
        `${folder}recordedKit.ts`
      );
      const kit = await loadKit();
      return Promise.all(
        weights.map(async (weight) => {
          const context = new OfflineAudioContext(1, rateHz, rateHz);
          clickSound(context, context.destination, kit).sound(weight, at);
          return window.asText((await context.startRendering()).getChannelData(0));
        }),
      );
    },
    { weights, at, rateHz: RATE_HZ },
  );
  const clicks = heard.map(samplesOf);
  const peaks = clicks.map(peak);
  const centroids = clicks.map((samples) => centroidHz(samples.slice(at * RATE_HZ, 0.3 * RATE_HZ)));
  const lateMs = clicks.map(
    (samples, click) =>
      (samples.findIndex((sample) => Math.abs(sample) >= (peaks[click] ?? 0) / 10) / RATE_HZ - at) * 1000,
  );
  test.info().annotations.push({
    type: "click",
    description: weights
      .map(
        (weight, click) =>
          `${weight}: peak ${peaks[click]?.toFixed(3)}, ${centroids[click]?.toFixed(0)} Hz, ${lateMs[click]?.toFixed(3)} ms late`,
      )
      .join("; "),
  });
  for (const late of lateMs) expect(Math.abs(late)).toBeLessThan(0.1);
  for (const lower of [1, 2]) {
    expect(peaks[lower]).toBeLessThan(0.8 * (peaks[lower - 1] ?? 0));
    expect(centroids[lower]).toBeLessThan(0.97 * (centroids[lower - 1] ?? 0));
  }
  for (const samples of clicks) expect(peak(samples.slice((at + 0.07) * RATE_HZ))).toBeLessThan(1e-4);
});

test("repeated strokes differ a little, and not at all where pitch is the question", async () => {
  const strokes = [0, 1].map((time) => ({ time, voice: "mid-tom", velocity: 0.8 }) as const);
  const difference = async (isTrueToPitch: boolean): Promise<number> => {
    const heard = sum(await render({ strokes, seconds: 2, isTrueToPitch }));
    const half = heard.length / 2;
    return peak(heard.slice(0, half).map((sample, index) => sample - (heard[half + index] ?? 0)));
  };
  expect(await difference(false)).toBeGreaterThan(0.01);
  expect(await difference(true)).toBeLessThan(1e-6);
});

test("sixteen of the loudest strokes at once stay under the ceiling", async () => {
  const strokes = Array.from({ length: 16 }, () => ({ time: 0.01, voice: "kick", velocity: 1 }) as const);
  const [left, right] = await render({ strokes, seconds: 0.4, isLoudest: true });
  test.info().annotations.push({ type: "peak", description: String(Math.max(peak(left), peak(right))) });
  expect(Math.max(peak(left), peak(right))).toBeLessThanOrEqual(0.5);
  expect(peak(left)).toBeGreaterThan(0.45);
});

test("a stroke at the loudest volume passes the ceiling unchanged", async () => {
  const strokes = [{ time: 0, voice: "snare", velocity: 1 }] as const;
  const plain = sum(await render({ strokes, seconds: 0.3, isTrueToPitch: true }));
  const through = sum(await render({ strokes, seconds: 0.3, isTrueToPitch: true, isLoudest: true }));
  const factor = peak(through) / peak(plain);
  expect(20 * Math.log10(factor)).toBeCloseTo(-9, 2);
  const apart = peak(through.map((sample, index) => sample - factor * (plain[index] ?? 0)));
  expect(apart).toBeLessThan(1e-4);
});
