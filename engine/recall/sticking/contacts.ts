import { otherHand, type Rudiment } from "../../catalogue/index.ts";
import type { Hand } from "../../score/index.ts";
import { type Milliseconds, toNumber } from "../../units/index.ts";

/** One stroke of the stick in a rudiment that is repeated without end: main strokes and grace strokes alike. */
export interface Contact {
  readonly hand: Hand;
  /** Felt beats from the start of the first cycle; a grace stroke has its main stroke's. */
  readonly beat: number;
  /** How long before its main stroke a grace stroke is looked for; 0 for a main stroke. */
  readonly aheadMs: Milliseconds;
  readonly role: "main" | "grace";
  readonly accent: boolean;
  readonly bounced: boolean;
  /** The second of two strokes of one hand with nothing between them. */
  readonly secondOfDouble: boolean;
}

/** The middle of what is usual for a flam, and for each stroke of a drag (common practice, no source). */
const GRACE_GAP_MS: Milliseconds = 30;
const DRAG_GAP_MS: Milliseconds = 45;

/** The contacts of a rudiment, by their place from 0 on. */
export class Contacts {
  readonly #cycle: readonly Contact[];
  readonly #beats: number;
  /** Asked for many times over while aligning, so made once. */
  readonly #made: Contact[] = [];
  /** Places in the cycle at which a lead begins. */
  readonly leads: readonly number[];

  /** @param mirrored begun with the other hand than written. */
  constructor(rudiment: Rudiment, mirrored: boolean) {
    const handOf = (hand: Hand) => (mirrored ? otherHand(hand) : hand);
    const leads: number[] = [];
    const cycle: Contact[] = [];
    rudiment.strokes.forEach((stroke, at) => {
      if (rudiment.leads.includes(at)) leads.push(cycle.length);
      const { hand, graces, accent, bounced, length } = stroke;
      const before = rudiment.strokes.at(at - 1);
      const beat = toNumber(stroke.position);
      const gap = graces === 2 ? DRAG_GAP_MS : GRACE_GAP_MS;
      for (let grace = graces; grace > 0; grace -= 1) {
        cycle.push({
          hand: handOf(otherHand(hand)),
          beat,
          aheadMs: grace * gap,
          role: "grace",
          accent: false,
          bounced: false,
          secondOfDouble: false,
        });
      }
      const secondOfDouble =
        graces === 0 &&
        before?.hand === hand &&
        rudiment.strokes.length > 1 &&
        toNumber(before.length) <= toNumber(length);
      cycle.push({ hand: handOf(hand), beat, aheadMs: 0, role: "main", accent, bounced, secondOfDouble });
    });
    this.#cycle = cycle;
    this.#beats = toNumber(rudiment.beats);
    this.leads = leads;
  }

  /** How many to a cycle. */
  get perCycle(): number {
    return this.#cycle.length;
  }

  at(place: number): Contact {
    const made = this.#made[place];
    if (made) return made;
    const contact = this.#cycle[place % this.#cycle.length];
    if (!contact) throw new RangeError(`There is no contact ${place}: places are whole numbers from 0 on.`);
    const cycles = Math.floor(place / this.#cycle.length);
    const later = { ...contact, beat: contact.beat + cycles * this.#beats };
    this.#made[place] = later;
    return later;
  }

  isGrace(place: number): boolean {
    return this.#cycle[place % this.#cycle.length]?.role === "grace";
  }
}
