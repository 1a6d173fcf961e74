/**
 * The ear for syllables: opens the microphone, learns how each person says each syllable, and hears phrases.
 *
 * Nothing of a voice is kept: sound stays in memory until it is analysed, and the examples that are learnt (power in bands, no
 * sound) are forgotten when the program is closed or is told to. They are written nowhere: five of each take a minute, and
 * that is the price of storing nothing.
 */
import { type Enrolment, EXAMPLES_ASKED, type HeardSyllable, type Sound } from "../../engine/speech/index.ts";
import type { Seconds } from "../../engine/units/index.ts";
import { Microphone, MicrophoneError } from "../audio/clickMicrophone.ts";
import { Store } from "../session/store.ts";
import { saidSoFar } from "./saidUntilQuiet.ts";
import { NotHeardError, type SyllableThinking } from "./syllableThinking.ts";

export interface EarState {
  readonly microphone: "closed" | "opening" | "open";
  readonly doing: "nothing" | "listening" | "thinking";
  /** Why nothing was heard, said to the user; `null` where all is well. */
  readonly trouble: string | null;
  /** Whose examples there are, and how many of each syllable. */
  readonly learnt: ReadonlyMap<string, ReadonlyMap<string, number>>;
}

const KEPT_SECONDS: Seconds = 25;
const LONGEST_SECONDS: Seconds = 20;
/** Nothing was said for so long: it is given up. Our choice. */
const PATIENCE_SECONDS: Seconds = 15;
/** A phrase is over after so much quiet; five examples after more, since there is quiet between them. Our choice. */
export const PHRASE_OVER_SECONDS: Seconds = 1.1;
const EXAMPLES_OVER_SECONDS: Seconds = 1.8;
/** The noise of the room is heard before anybody speaks. */
const LOOK_MS = 100;

export class SyllableEar extends Store<EarState, Partial<EarState>> {
  readonly #context: () => Promise<AudioContext | undefined>;
  readonly #thinking: SyllableThinking;
  readonly #examples = new Map<string, Enrolment>();
  #microphone: Microphone | undefined;
  #listening = 0;

  /** @param context the one all sound is on. */
  constructor(context: () => Promise<AudioContext | undefined>, thinking: SyllableThinking) {
    super({ microphone: "closed", doing: "nothing", trouble: null, learnt: new Map() }, (state, change) => ({
      ...state,
      ...change,
    }));
    this.#context = context;
    this.#thinking = thinking;
  }

  /** How many examples of a syllable a speaker has given. */
  count(speaker: string, syllable: string): number {
    return this.get().learnt.get(speaker)?.get(syllable) ?? 0;
  }

  /** The syllables of which a speaker has given enough. */
  known(speaker: string): readonly string[] {
    return [...(this.get().learnt.get(speaker) ?? [])].flatMap(([syllable, count]) =>
      count >= EXAMPLES_ASKED ? [syllable] : [],
    );
  }

  /** Learns a syllable: it is said five times, with quiet between. Call it from the user's own action. */
  async learn(speaker: string, syllable: string): Promise<void> {
    await this.#withSound(EXAMPLES_OVER_SECONDS, async (sound) => {
      const fresh = await this.#thinking.examples(syllable, sound);
      const before = this.#examples.get(speaker) ?? [];
      const others = before.filter((example) => example.syllable !== syllable);
      const own = [...before.filter((example) => example.syllable === syllable), ...fresh].slice(
        -EXAMPLES_ASKED,
      );
      this.#examples.set(speaker, [...others, ...own]);
      this.#tell();
      return fresh;
    });
  }

  /** Hears a phrase. `null` where nothing could be told; the reason is in the state. Call it from the user's own action. */
  async hear(speaker: string): Promise<readonly HeardSyllable[] | null> {
    const known = this.known(speaker);
    const enrolment = (this.#examples.get(speaker) ?? []).filter(({ syllable }) => known.includes(syllable));
    return this.#withSound(PHRASE_OVER_SECONDS, (sound) => this.#thinking.hear(sound, enrolment));
  }

  /** What is being said is not wanted any more. */
  cancel(): void {
    this.#listening += 1;
    this.dispatch({ doing: "nothing" });
  }

  /** Lets go of the microphone. What was learnt stays until {@link forget}. */
  close(): void {
    this.cancel();
    this.#microphone?.close();
    this.#microphone = undefined;
    this.dispatch({ microphone: "closed" });
  }

  /** Forgets how everybody says their syllables. */
  forget(): void {
    this.#examples.clear();
    this.#tell();
  }

  #tell(): void {
    const learnt = new Map(
      [...this.#examples].map(([speaker, examples]) => {
        const counts = new Map<string, number>();
        for (const { syllable } of examples) counts.set(syllable, (counts.get(syllable) ?? 0) + 1);
        return [speaker, counts] as const;
      }),
    );
    this.dispatch({ learnt });
  }

  async #withSound<Told>(
    quietSeconds: Seconds,
    think: (sound: Sound) => Promise<Told>,
  ): Promise<Told | null> {
    this.#listening += 1;
    const turn = this.#listening;
    this.dispatch({ trouble: null });
    try {
      const microphone = await this.#open();
      if (turn !== this.#listening) return null;
      this.dispatch({ doing: "listening" });
      const sound = await this.#untilQuiet(microphone, quietSeconds, () => turn === this.#listening);
      if (!sound) return null;
      this.dispatch({ doing: "thinking" });
      const told = await think(sound);
      return turn === this.#listening ? told : null;
    } catch (error) {
      if (!(error instanceof NotHeardError) && !(error instanceof MicrophoneError)) throw error;
      if (turn === this.#listening) this.dispatch({ trouble: error.message });
      return null;
    } finally {
      if (turn === this.#listening) this.dispatch({ doing: "nothing" });
    }
  }

  async #open(): Promise<Microphone> {
    if (this.#microphone) return this.#microphone;
    this.dispatch({ microphone: "opening" });
    try {
      const context = await this.#context();
      if (!context)
        throw new MicrophoneError("This computer gives no sound, and without it no microphone is heard.");
      this.#microphone = await Microphone.open(context, KEPT_SECONDS);
      this.dispatch({ microphone: "open" });
      return this.#microphone;
    } catch (error) {
      this.dispatch({ microphone: "closed" });
      throw error;
    }
  }

  /** What is said from now on, until it is quiet again; `undefined` where it is not wanted any more. */
  async #untilQuiet(
    microphone: Microphone,
    quietSeconds: Seconds,
    isWanted: () => boolean,
  ): Promise<Sound | undefined> {
    let from = microphone.heardUntil;
    const began = performance.now();
    for (;;) {
      await new Promise((resolve) => setTimeout(resolve, LOOK_MS));
      if (!isWanted()) return undefined;
      if (from === 0) from = microphone.heardUntil;
      const heard = microphone.between(from, microphone.heardUntil);
      const { said, quietSeconds: quiet } = saidSoFar(heard);
      const seconds = (performance.now() - began) / 1000;
      const isOver = said ? quiet >= quietSeconds : seconds > PATIENCE_SECONDS;
      if (isOver || seconds > LONGEST_SECONDS)
        return { samples: heard.samples, sampleRate: heard.sampleRate };
    }
  }
}
