import { expect, test } from "vitest";
import { FOUR_FOUR } from "../../../engine/score/index.ts";
import {
  HOUSE_SPEAKER,
  OUR_SYLLABLES,
  phonemesOf,
  readPhraseText,
  sayWords,
  speakSyllable,
  wordsOfPhrase,
} from "../../../engine/speech/index.ts";
import { seededChance } from "../../../engine/units/index.ts";

const RATE = 24_000;

function spoken(text: string, tract = 1) {
  return speakSyllable(text, { ...HOUSE_SPEAKER, tract }, RATE, seededChance(1));
}

/** Power at one frequency over a stretch (Goertzel's sum written out). */
function powerAt(samples: Float32Array, hz: number): number {
  let re = 0;
  let im = 0;
  samples.forEach((sample, at) => {
    const angle = (2 * Math.PI * hz * at) / RATE;
    const window = 0.5 - 0.5 * Math.cos((2 * Math.PI * at) / samples.length);
    re += sample * window * Math.cos(angle);
    im += sample * window * Math.sin(angle);
  });
  return re * re + im * im;
}

/** The frequency of the strongest harmonic within a range. */
function strongest(samples: Float32Array, fromHz: number, toHz: number): number {
  let best = fromHz;
  for (let hz = fromHz; hz <= toHz; hz += 5) if (powerAt(samples, hz) > powerAt(samples, best)) best = hz;
  return best;
}

test.each([
  ["ee", 2290],
  ["aa", 1090],
  ["eh", 1840],
])("the second formant of %s lies where it was measured in men: %d Hz", (text, formantHz) => {
  const { samples, centre } = spoken(text);
  const at = Math.round((centre + 0.05) * RATE);
  const found = strongest(samples.subarray(at, at + RATE * 0.06), formantHz - 400, formantHz + 600);
  // The nearest harmonic of 125 Hz can be half a pitch away, and the tilt of the voice pulls down.
  expect(Math.abs(found - formantHz)).toBeLessThan(130);
});

test("a shorter tract raises the formants", () => {
  const long = spoken("ee").samples.subarray(RATE * 0.05, RATE * 0.11);
  const short = spoken("ee", 1.2).samples.subarray(RATE * 0.05, RATE * 0.11);
  expect(strongest(short, 2000, 3200)).toBeGreaterThan(strongest(long, 2000, 2700) + 200);
});

test("a hiss has its energy high, a vowel low", () => {
  const share = (samples: Float32Array): number => {
    const high = [4500, 5500, 6500, 7500].reduce((sum, hz) => sum + powerAt(samples, hz), 0);
    const low = [250, 500, 1000, 1500].reduce((sum, hz) => sum + powerAt(samples, hz), 0);
    return high / (high + low);
  };
  expect(share(spoken("tss").samples)).toBeGreaterThan(0.8);
  expect(share(spoken("doo").samples)).toBeLessThan(0.2);
});

test.each(OUR_SYLLABLES.syllables.map(({ text }) => text))(
  "%s sounds, ends in silence, never clips and is short",
  (text) => {
    const { samples, centre } = spoken(text);
    expect(Math.max(...samples)).toBeLessThan(1);
    expect(Math.min(...samples)).toBeGreaterThan(-1);
    expect(samples.some((sample) => Math.abs(sample) > 0.5)).toBe(true);
    expect(samples.length / RATE).toBeGreaterThan(0.07);
    expect(samples.length / RATE).toBeLessThan(0.42);
    expect(centre).toBeGreaterThanOrEqual(0);
    expect(centre).toBeLessThan(0.1);
    expect(samples.every(Number.isFinite)).toBe(true);
    expect(Math.abs(samples.at(-1) ?? 1)).toBeLessThan(0.05);
  },
);

test("the centre is the burst of a stop and the beginning of a vowel after a hiss", () => {
  expect(spoken("ka").centre).toBe(0);
  expect(spoken("sha").centre).toBeCloseTo(0.09, 3);
});

test("the same chance says the same", () => {
  expect(spoken("tss").samples).toEqual(spoken("tss").samples);
});

test("any spelling is said as something", () => {
  for (const text of ["x", "hh", "brrk", "skwee", "1", "12", "and"]) {
    expect(phonemesOf(text).length).toBeGreaterThan(0);
    expect(spoken(text).samples.length).toBeGreaterThan(0);
  }
  expect(phonemesOf("tss").map(({ kind }) => kind)).toEqual(["stop"]);
});

test("every syllable of a phrase stands at its sample", () => {
  const phrase = readPhraseText("ka (ka ka) - (- ka)", {
    syllables: OUR_SYLLABLES,
    metre: FOUR_FOUR,
    tempoBpm: 97,
  });
  const words = wordsOfPhrase(phrase, OUR_SYLLABLES);
  const said = sayWords(words, HOUSE_SPEAKER, RATE, seededChance(3));
  const alone = speakSyllable("ka", HOUSE_SPEAKER, RATE, seededChance(3));
  expect(said.zeroAt).toBe(0);
  expect(words.map(({ time }) => time / (60 / 97))).toEqual(
    [0, 1, 1.5, 3.5].map((beat) => expect.closeTo(beat, 9)),
  );
  for (const { time } of words) {
    const at = Math.round(time * RATE);
    expect(said.samples.subarray(at, at + 1000)).toEqual(alone.samples.subarray(0, 1000));
  }
});

test("a hiss begins before its beat, and time 0 says where that is", () => {
  const said = sayWords([{ time: 0, text: "sha" }], HOUSE_SPEAKER, RATE, seededChance(3));
  expect(said.zeroAt).toBeCloseTo(0.09, 3);
});
