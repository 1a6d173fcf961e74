/**
 * Which pad each hand has when a sticking is played: one for the left, one for the right. Kept on this computer, set in Kit.
 * On one pad it cannot be told which hand struck, so the two are never the same.
 */
import { z } from "zod";
import type { Hand } from "../../engine/score/index.ts";
import type { NoteNumber } from "../../engine/units/index.ts";
import type { KeepingPlace } from "./keepingPlace.ts";
import { Store } from "./store.ts";

/** `null` where none is set. */
export type HandPadsOf = Readonly<Record<Hand, NoteNumber | null>>;

const NONE: HandPadsOf = { L: null, R: null };
const KEPT_AS = "throneside.hands";
const note = z.int().min(0).max(127).nullable();
const keptSchema = z.strictObject({ version: z.literal(1), pads: z.strictObject({ L: note, R: note }) });

function readPads(place: KeepingPlace | undefined): HandPadsOf {
  try {
    const kept = keptSchema.safeParse(JSON.parse(place?.getItem(KEPT_AS) ?? "null"));
    return kept.success ? kept.data.pads : NONE;
  } catch {
    // Damaged text, or a browser that keeps nothing: the pads can be struck again.
    return NONE;
  }
}

export class HandPads extends Store<HandPadsOf, HandPadsOf> {
  readonly #place: KeepingPlace | undefined;

  constructor(place?: KeepingPlace) {
    super(readPads(place), (_, next) => next);
    this.#place = place;
  }

  /** Gives a hand its pad. Returns false, and changes nothing, where it is the other hand's. */
  set(hand: Hand, pad: NoteNumber): boolean {
    const other = hand === "L" ? "R" : "L";
    if (this.get()[other] === pad) return false;
    this.#keep({ ...this.get(), [hand]: pad });
    return true;
  }

  clear(): void {
    this.#keep(NONE);
  }

  #keep(pads: HandPadsOf): void {
    this.dispatch(pads);
    try {
      this.#place?.setItem(KEPT_AS, JSON.stringify({ version: 1, pads }));
    } catch {
      // A browser that keeps nothing: they hold until the page is closed.
    }
  }
}
