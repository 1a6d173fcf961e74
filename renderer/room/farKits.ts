/** The kits of a lab as its desk sees them: what each struck last. */
import { type Hit, type Voice, voiceName } from "../../engine/kit/index.ts";
import type { PersonId } from "../../engine/rooms/index.ts";

/** The latest strike of each voice of a far kit, and which was the last of all. */
export interface FarKit {
  readonly latest: ReadonlyMap<Voice, { readonly index: number; readonly hit: Hit }>;
  readonly now: number | undefined;
}

const NOTHING_STRUCK: FarKit = { latest: new Map(), now: undefined };

export class FarKits {
  readonly #kits = new Map<PersonId, FarKit>();
  readonly #listeners = new Set<() => void>();

  /** What a kit struck last. */
  of(id: PersonId): FarKit {
    return this.#kits.get(id) ?? NOTHING_STRUCK;
  }

  add(id: PersonId, hits: readonly Hit[]): void {
    this.#kits.set(id, struck(this.of(id), hits));
    for (const listener of this.#listeners) listener();
  }

  /** The room is left. */
  clear(): void {
    this.#kits.clear();
  }

  /** Hears of each strike. Returns the way to stop. */
  readonly subscribe = (listener: () => void): (() => void) => {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  };
}

function struck({ latest, now }: FarKit, hits: readonly Hit[]): FarKit {
  const after = new Map(latest);
  let index = now ?? -1;
  for (const hit of hits) {
    index += 1;
    after.set(hit.voice, { index, hit });
  }
  return { latest: after, now: index };
}

/** The voice that was struck last, by name; `null` before any was. */
export function lastVoice({ latest, now }: FarKit): string | null {
  for (const [voice, { index }] of latest) if (index === now) return voiceName(voice);
  return null;
}
