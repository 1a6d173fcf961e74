import type { Hit, KitEvent, Voice } from "../../engine/kit/index.ts";
import type { Watched } from "./store.ts";

/** Who sent the message: the kit over MIDI, the keys of this computer, a piece being played, or a kit in another place. */
export type Source = "kit" | "keyboard" | "demonstration" | "far";

/** One line of the session's log. */
export interface LogEntry {
  readonly source: Source;
  readonly event: KitEvent;
  /** False when a whole file was read at once: its moments are not now. */
  readonly live: boolean;
}

/**
 * All that the kit has sent since the program was opened: append-only, in the order it arrived. The snapshot
 * React compares is the number of entries, so that ten thousand strikes cost no copy.
 */
export class KitLog implements Watched<number> {
  readonly #entries: LogEntry[] = [];
  readonly #listeners = new Set<() => void>();
  readonly #latestOfVoice = new Map<Voice, { readonly index: number; readonly hit: Hit }>();
  #retriggers = 0;
  #openness: number | undefined;

  get entries(): readonly LogEntry[] {
    return this.#entries;
  }

  readonly get = (): number => this.#entries.length;

  readonly subscribe = (listener: () => void): (() => void) => {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  };

  /** Adds entries and tells the listeners once. */
  append(entries: readonly LogEntry[]): void {
    if (entries.length === 0) return;
    for (const entry of entries) this.#take(entry);
    for (const listener of this.#listeners) listener();
  }

  #take(entry: LogEntry): void {
    const { event } = entry;
    if (event.kind === "hit")
      this.#latestOfVoice.set(event.hit.voice, { index: this.#entries.length, hit: event.hit });
    if (event.kind === "retrigger") this.#retriggers += 1;
    if (event.kind === "hi-hat") this.#openness = event.openness;
    this.#entries.push(entry);
  }

  /** The latest true strike of each voice, with its place in the log. */
  get latestOfVoice(): ReadonlyMap<Voice, { readonly index: number; readonly hit: Hit }> {
    return this.#latestOfVoice;
  }

  /** Double triggers so far. */
  get retriggers(): number {
    return this.#retriggers;
  }

  /** How far the hi-hat was open when its pedal last moved; `undefined` before that. */
  get openness(): number | undefined {
    return this.#openness;
  }

  /** The true strikes from entry `from` on. */
  hitsSince(from: number): readonly Hit[] {
    const hits: Hit[] = [];
    for (let index = from; index < this.#entries.length; index += 1) {
      const event = this.#entries[index]?.event;
      if (event?.kind === "hit") hits.push(event.hit);
    }
    return hits;
  }

  /** Hears of true strikes from now on, as they come. Returns the way to stop. */
  hear(struck: (fresh: readonly Hit[]) => void): () => void {
    let seen = this.get();
    return this.subscribe(() => {
      const fresh = this.hitsSince(seen);
      seen = this.get();
      if (fresh.length > 0) struck(fresh);
    });
  }

  /** Whether all entries from `from` on came at their own moment, none from a file that was read at once. */
  isLiveSince(from: number): boolean {
    return this.#entries.slice(from).every(({ live }) => live);
  }

  /** Up to `count` of the latest entries of the kinds asked for, newest first. */
  latest(
    count: number,
    kinds: ReadonlySet<KitEvent["kind"]>,
  ): readonly { readonly index: number; readonly entry: LogEntry }[] {
    const found: { index: number; entry: LogEntry }[] = [];
    for (let index = this.#entries.length - 1; index >= 0 && found.length < count; index -= 1) {
      const entry = this.#entries[index];
      if (entry && kinds.has(entry.event.kind)) found.push({ index, entry });
    }
    return found;
  }
}
