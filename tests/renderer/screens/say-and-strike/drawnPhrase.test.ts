import { expect, test } from "vitest";
import { OUR_SYLLABLES } from "../../../../engine/speech/index.ts";
import { seededChance } from "../../../../engine/units/index.ts";
import { drawnPhrase } from "../../../../renderer/screens/say-and-strike/drawnPhrase.ts";

const FIRST_VOICE = OUR_SYLLABLES.syllables[0]?.voice;
const LAST_VOICE = OUR_SYLLABLES.syllables.at(-1)?.voice ?? "snare";

test("what was dealt is in it, even on the lowest rung; once it was asked, the phrase is any", () => {
  const item = `syllable:${LAST_VOICE}` as const;
  const dealt = { items: [item], nothingElse: false };
  for (let seed = 0; seed < 20; seed += 1) {
    const first = drawnPhrase(1, OUR_SYLLABLES, { dealt, asked: [] }, seededChance(seed));
    expect(first.voices).toEqual([LAST_VOICE]);
    const second = drawnPhrase(1, OUR_SYLLABLES, { dealt, asked: [item] }, seededChance(seed));
    expect(second.voices).toEqual([FIRST_VOICE]);
  }
});

test("what was dealt and is no syllable of this studio is passed over", () => {
  const dealt = { items: ["syllable:nothing" as const], nothingElse: true };
  const phrase = drawnPhrase(1, OUR_SYLLABLES, { dealt, asked: [] }, seededChance(1));
  expect(phrase.voices).toEqual([FIRST_VOICE]);
});
