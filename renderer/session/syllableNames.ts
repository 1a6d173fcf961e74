/** The syllables of this studio: our own, with some spelt as they are said here. Kept on this computer. */
import { z } from "zod";
import { VOICES, type Voice } from "../../engine/kit/index.ts";
import { OUR_SYLLABLES, renamed, type SyllableSet } from "../../engine/speech/index.ts";
import type { KeepingPlace } from "./keepingPlace.ts";
import { Store } from "./store.ts";

const KEPT_AS = "throneside.syllables";
const keptSchema = z.strictObject({
  version: z.literal(1),
  texts: z.partialRecord(z.enum(VOICES), z.string()),
});

function readSet(place: KeepingPlace | undefined): SyllableSet {
  try {
    const kept = keptSchema.safeParse(JSON.parse(place?.getItem(KEPT_AS) ?? "null"));
    return kept.success ? renamed(OUR_SYLLABLES, kept.data.texts) : OUR_SYLLABLES;
  } catch {
    // Damaged text, or a browser that keeps nothing: our own stand.
    return OUR_SYLLABLES;
  }
}

export class SyllableNames extends Store<SyllableSet, SyllableSet> {
  readonly #place: KeepingPlace | undefined;

  constructor(place?: KeepingPlace) {
    super(readSet(place), (_, next) => next);
    this.#place = place;
  }

  /** Spells a voice's syllable. Returns why that cannot be, and changes nothing, or `null`. */
  spell(voice: Voice, text: string): string | null {
    try {
      this.#keep(renamed(this.get(), { [voice]: text }));
      return null;
    } catch (error) {
      if (!(error instanceof z.ZodError)) throw error;
      return error.issues[0]?.message ?? "This is not a syllable.";
    }
  }

  /** Our own again. */
  clear(): void {
    this.#keep(OUR_SYLLABLES);
  }

  #keep(set: SyllableSet): void {
    this.dispatch(set);
    const texts = Object.fromEntries(set.syllables.map(({ text, voice }) => [voice, text]));
    try {
      this.#place?.setItem(KEPT_AS, JSON.stringify({ version: 1, texts }));
    } catch {
      // A browser that keeps nothing: they hold until the page is closed.
    }
  }
}
