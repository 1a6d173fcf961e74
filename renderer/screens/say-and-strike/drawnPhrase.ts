/** The program's next phrase: of a rung, with what was dealt in it. */
import type { Voice } from "../../../engine/kit/index.ts";
import { type Dealt, dealtNext, type ShownItem } from "../../../engine/rounds/index.ts";
import type { Phrase } from "../../../engine/score/index.ts";
import { inventPhrase, type SyllableSet } from "../../../engine/speech/index.ts";
import type { Chance } from "../../../engine/units/index.ts";

/** So often a phrase is drawn anew, until what was dealt is in it. */
const MOST_DRAWS = 40;

/**
 * @param rung how hard, from 1.
 * @param asked all that was asked so far in this round.
 */
export function drawnPhrase(
  rung: number,
  set: SyllableSet,
  { dealt, asked }: { readonly dealt: Dealt | null; readonly asked: readonly ShownItem[] },
  chance: Chance,
): Phrase {
  const item = dealtNext(dealt, asked, (each) => voiceOf(each, set) !== undefined);
  const voice = item && voiceOf(item, set);
  if (!voice) return inventPhrase(rung, set, chance);
  const ordered = withFirst(set, voice);
  for (let draw = 1; draw < MOST_DRAWS; draw += 1) {
    const phrase = inventPhrase(rung, ordered, chance);
    if (phrase.voices.includes(voice)) return phrase;
  }
  return inventPhrase(rung, ordered, chance);
}

function voiceOf(item: ShownItem, set: SyllableSet): Voice | undefined {
  return set.syllables.find(({ voice }) => item === `syllable:${voice}`)?.voice;
}

/** A phrase is made of the first syllables of a set. */
function withFirst(set: SyllableSet, voice: Voice): SyllableSet {
  const first = set.syllables.filter((each) => each.voice === voice);
  return { ...set, syllables: [...first, ...set.syllables.filter((each) => each.voice !== voice)] };
}
