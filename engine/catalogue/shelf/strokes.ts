/** Changing what is written stroke by stroke, on a grid of voices and places. */
import type { Voice } from "../../kit/index.ts";
import {
  beatsPerBar,
  type Dynamic,
  type Groove,
  inOrder,
  isCompound,
  type Note,
  type Ornament,
} from "../../score/index.ts";
import { add, compare, type Fraction, fraction, leastCommonMultiple } from "../../units/index.ts";

/** Where a stroke stands, or could. */
export interface Place {
  readonly voice: Voice;
  /** Felt beats from the start of the groove. */
  readonly position: Fraction;
}

/** Finer than this a grid cannot be struck with a finger. Our choice: sixteenths and their triplets. */
export const MOST_PLACES_IN_A_BEAT = 12;

/** One press goes from silence to plain, to an accent, to a ghost, and back. */
const NEXT: Readonly<Record<Dynamic, Dynamic | null>> = { plain: "accent", accent: "ghost", ghost: null };

/**
 * Places in a felt beat, so that every stroke has one: sixteenths at least, eighths and triplets in compound metres.
 *
 * @returns `undefined` where that is more than {@link MOST_PLACES_IN_A_BEAT}.
 */
export function placesInABeat({ notes, metre }: Pick<Groove, "notes" | "metre">): number | undefined {
  const needed = notes.reduce((places, { position }) => leastCommonMultiple(places, position.den), 1);
  const usual = isCompound(metre) ? 3 : metre.denominator === 8 ? 2 : 4;
  const places = needed === 3 ? 3 : leastCommonMultiple(needed, usual);
  if (places <= MOST_PLACES_IN_A_BEAT) return places;
  return needed <= MOST_PLACES_IN_A_BEAT ? needed : undefined;
}

/** The positions of a bar, from 0. */
export function placesOfBar(
  { metre }: Pick<Groove, "metre">,
  bar: number,
  placesPerBeat: number,
): readonly Fraction[] {
  const beats = beatsPerBar(metre);
  return Array.from({ length: beats * placesPerBeat }, (_, place) =>
    add(fraction(bar * beats), fraction(place, placesPerBeat)),
  );
}

/** The stroke at a place, or none. */
export function strokeAt({ notes }: Pick<Groove, "notes">, { voice, position }: Place): Note | undefined {
  return notes.find((note) => note.voice === voice && compare(note.position, position) === 0);
}

/** The groove with the stroke at a place one further: silence, plain, accent, ghost, silence. */
export function cycled(groove: Groove, place: Place): Groove {
  const stroke = strokeAt(groove, place);
  return withDynamic(groove, place, stroke ? NEXT[stroke.dynamic] : "plain");
}

/** The groove with this dynamic at a place; `null` leaves nothing there. Hand and ornament stay. */
export function withDynamic(groove: Groove, place: Place, dynamic: Dynamic | null): Groove {
  const stroke = strokeAt(groove, place);
  return replaced(groove, stroke, dynamic === null ? undefined : { ...(stroke ?? place), dynamic });
}

/** The groove with a flam or a drag at a place, or without it where it is there already; a stroke must be there. */
export function withOrnament(groove: Groove, place: Place, ornament: Ornament): Groove {
  const stroke = strokeAt(groove, place);
  if (!stroke) return groove;
  const { ornament: had, ...bare } = stroke;
  return replaced(groove, stroke, had === ornament ? bare : { ...bare, ornament });
}

function replaced(groove: Groove, before: Note | undefined, after: Note | undefined): Groove {
  const others = groove.notes.filter((note) => note !== before);
  return { ...groove, notes: inOrder(after ? [...others, after] : others, groove.voices) };
}

/** The groove with a line for one more voice, at its foot. */
export function withVoice(groove: Groove, voice: Voice): Groove {
  return groove.voices.includes(voice) ? groove : { ...groove, voices: [...groove.voices, voice] };
}

/** The groove with its last bar once more. */
export function withOneMoreBar(groove: Groove): Groove {
  const beats = beatsPerBar(groove.metre);
  const from = fraction((groove.bars - 1) * beats);
  const again = groove.notes
    .filter(({ position }) => compare(position, from) >= 0)
    .map((note) => ({ ...note, position: add(note.position, fraction(beats)) }));
  return { ...groove, bars: groove.bars + 1, notes: inOrder([...groove.notes, ...again], groove.voices) };
}

/** The groove without its last bar; a single bar stays. */
export function withoutLastBar(groove: Groove): Groove {
  if (groove.bars === 1) return groove;
  const end = fraction((groove.bars - 1) * beatsPerBar(groove.metre));
  return {
    ...groove,
    bars: groove.bars - 1,
    notes: groove.notes.filter(({ position }) => compare(position, end) < 0),
  };
}
