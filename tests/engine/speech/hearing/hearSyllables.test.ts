import { beforeAll, expect, test } from "vitest";
import {
  type Enrolment,
  examplesIn,
  hearSyllables,
  OUR_SYLLABLES,
  type Refusal,
  refusalWords,
  type Sound,
  SoundRefusal,
  type Speaker,
} from "../../../../engine/speech/index.ts";
import { seededChance } from "../../../../engine/units/index.ts";
import { asSaidOnce, enrolled, inNoise, phraseByChance, RATE, recorded, SPEAKERS } from "../saidTakes.ts";

const SYLLABLES = OUR_SYLLABLES.syllables.slice(0, 6).map(({ text }) => text);
const chance = seededChance(11);
const [, , speaker = { pitchHz: 200, tract: 1.15, pace: 1, breath: 0.08 } satisfies Speaker] = SPEAKERS;
let enrolment: Enrolment = [];

beforeAll(() => {
  enrolment = enrolled(SYLLABLES, speaker, chance);
}, 180_000);

function refusal(act: () => unknown): Refusal {
  try {
    act();
  } catch (error) {
    if (error instanceof SoundRefusal) {
      expect(error.message).toBe(refusalWords(error.refusal));
      return error.refusal;
    }
    throw error;
  }
  throw new Error("Nothing was refused.");
}

test("five examples of each are five of each", () => {
  expect(enrolment.length).toBe(30);
});

test.each([
  ["in quiet", undefined],
  ["in white noise", "white"],
  ["in pink noise", "pink"],
] as const)("which syllables, and when, %s", (_, colour) => {
  const words = phraseByChance(SYLLABLES, chance);
  const clean = recorded(words, asSaidOnce(speaker, chance), chance);
  const heard = hearSyllables(colour ? inNoise(clean, 20, colour, chance) : clean, enrolment);
  expect(heard.map(({ syllable }) => syllable)).toEqual(words.map(({ text }) => text));
  heard.forEach(({ syllable, centre, confidence }, at) => {
    const off = centre - (words[at]?.time ?? Number.NaN);
    expect(`${syllable} ${Math.abs(off) < 0.06 ? "on its beat" : off}`).toBe(`${syllable} on its beat`);
    expect(confidence).toBeGreaterThan(0.3);
    expect(confidence).toBeLessThanOrEqual(1);
  });
});

test("a syllable of another spelling is told with less confidence than its own", () => {
  const own = hearSyllables(recorded([{ time: 0.3, text: "ka" }], speaker, chance), enrolment);
  const other = hearSyllables(recorded([{ time: 0.3, text: "tay" }], speaker, chance), enrolment);
  expect(own[0]?.syllable).toBe("ka");
  expect(other[0]?.confidence ?? 0).toBeLessThan(own[0]?.confidence ?? 0);
});

function said(): Sound {
  return recorded(phraseByChance(SYLLABLES, seededChance(5)), speaker, seededChance(6));
}

function mapped(sound: Sound, change: (sample: number, at: number) => number): Sound {
  return { ...sound, samples: sound.samples.map(change) };
}

test.each([
  ["white noise at 10 dB", "noisy", () => inNoise(said(), 10, "white", chance)],
  ["pink noise at 10 dB", "noisy", () => inNoise(said(), 10, "pink", chance)],
  ["cut off at a third", "clipped", () => mapped(said(), (sample) => Math.max(-0.3, Math.min(0.3, sample)))],
  [
    "a chord in the room",
    "music",
    () =>
      mapped(said(), (sample, at) => {
        const turn = (hz: number): number => Math.sin((2 * Math.PI * hz * at) / RATE);
        return sample * 0.8 + 0.02 * (turn(220) + turn(277) + turn(330));
      }),
  ],
  ["silence", "nothing-said", () => mapped(said(), () => 0)],
  ["noise alone", "nothing-said", () => mapped(said(), () => 0.05 * (chance() - chance()))],
  ["a moment", "too-short", () => ({ ...said(), samples: said().samples.subarray(0, 900) })],
] as const)("%s is refused as %s", (_, kind, sound) => {
  expect(refusal(() => hearSyllables(sound(), enrolment)).kind).toBe(kind);
});

test("20 dB are enough", () => {
  for (const colour of ["white", "pink"] as const)
    expect(hearSyllables(inNoise(said(), 20, colour, chance), enrolment).length).toBeGreaterThan(6);
});

test("an example that goes on and on is refused", () => {
  const long = recorded(
    [0, 1, 2, 3, 4, 5, 6, 7].map((at) => ({ time: 0.3 + at * 0.2, text: "doo" })),
    speaker,
    chance,
  );
  expect(refusal(() => examplesIn("doo", long)).kind).toBe("too-long");
});

test("several examples in one recording are taken apart", () => {
  const five = recorded(
    [0, 1, 2, 3, 4].map((at) => ({ time: 0.3 + at, text: "ka" })),
    speaker,
    chance,
  );
  const examples = examplesIn("ka", five);
  expect(examples.length).toBe(5);
  expect(examples.every(({ frames }) => frames.length > 20 && frames.length < 90)).toBe(true);
});
