/**
 * Question: where could a take be written otherwise? Only what would look different is told.
 */
import type { Dynamic, Note } from "../../score/index.ts";
import { compare, type Fraction, floor, fraction } from "../../units/index.ts";
import type { DividedBeat, Division } from "./grids.ts";
import type { Touch } from "./touch.ts";

/** Another way to write a stroke, or the strokes of a beat. */
export type Unsure =
  /** Two grids fit the beat nearly as well: the strokes in question, as they are written and as they could be. */
  | {
      readonly kind: "grid";
      /** Bar and beat from 1. */
      readonly bar: number;
      readonly beat: number;
      /** Indices of notes. */
      readonly notes: readonly number[];
      /** Parts the beat is divided in as written. */
      readonly parts: number;
      readonly alternatives: readonly {
        readonly parts: number;
        /** Of those notes, in their order. */
        readonly positions: readonly Fraction[];
      }[];
      /** Chance that it is right as written, against the likeliest alternative. */
      readonly chance: number;
    }
  /** A stroke stands halfway between two places. */
  | {
      readonly kind: "place";
      readonly bar: number;
      readonly beat: number;
      readonly notes: readonly [number];
      readonly alternatives: readonly { readonly position: Fraction }[];
      readonly chance: number;
    }
  /** A stroke's strength lies between two touches. */
  | {
      readonly kind: "touch";
      readonly bar: number;
      readonly beat: number;
      readonly notes: readonly [number];
      readonly alternatives: readonly { readonly dynamic: Dynamic }[];
      readonly chance: number;
    };

/** A note with how it was read. */
export interface Reading {
  readonly note: Note;
  readonly hitIndex: number;
  readonly touch: Touch;
  readonly beat: DividedBeat;
  /** Which of the beat's strokes it is. */
  readonly at: number;
  /** The beat of the first bar line. */
  readonly origin: number;
}

/** Below this chance of being right a place is asked about. Our choice: one in five such places is then wrong. */
const SURE = 0.8;

export function isUnsure({ chance }: Unsure): boolean {
  return chance < SURE;
}

/** Every place with what else it could be; sure ones too. In order of place. */
export function unsurePlaces(readings: readonly Reading[], beatsInBar: number): readonly Unsure[] {
  const notesOf = new Map<DividedBeat, number[]>();
  readings.forEach(({ beat }, index) => {
    const own = notesOf.get(beat);
    if (own) own.push(index);
    else notesOf.set(beat, [index]);
  });
  return [...notesOf].flatMap(([beat, notes]) => {
    const own = notes.flatMap((index) => readings[index] ?? []);
    const grid = otherGrid(beat, notes, own, beatsInBar);
    const places =
      grid && isUnsure(grid) ? [] : notes.flatMap((index) => otherPlace(readings[index], index, beatsInBar));
    const touches = notes.flatMap((index) => otherTouch(readings[index], index, beatsInBar));
    return [...(grid ? [grid] : []), ...places, ...touches];
  });
}

function placeIn(position: Fraction, beatsInBar: number): { readonly bar: number; readonly beat: number } {
  const whole = floor(position);
  return { bar: Math.floor(whole / beatsInBar) + 1, beat: (whole % beatsInBar) + 1 };
}

/** The likeliest division that moves a stroke. */
function otherGrid(
  beat: DividedBeat,
  notes: readonly number[],
  own: readonly Reading[],
  beatsInBar: number,
): (Unsure & { readonly kind: "grid" }) | undefined {
  const [best, ...rest] = beat.divisions;
  const [first] = own;
  if (!first) return undefined;
  const positions = ({ parts, places }: Division): readonly Fraction[] =>
    own.map(({ at, origin }) => fraction((beat.beat - origin) * parts + (places[at] ?? 0), parts));
  const written = positions(best);
  const other = rest.find((division) =>
    positions(division).some((position, index) => compare(position, written[index] ?? position) !== 0),
  );
  if (!other) return undefined;
  return {
    kind: "grid",
    ...placeIn(fraction(beat.beat - first.origin), beatsInBar),
    notes,
    parts: best.parts,
    alternatives: [{ parts: other.parts, positions: positions(other) }],
    chance: 1 / (1 + Math.exp(other.log - best.log)),
  };
}

function otherPlace(reading: Reading | undefined, index: number, beatsInBar: number): readonly Unsure[] {
  const other = reading?.beat.others[reading.at];
  if (!reading || !other || !Number.isFinite(other.odds)) return [];
  const { beat, origin, note } = reading;
  const [{ parts }] = beat.divisions;
  return [
    {
      kind: "place",
      ...placeIn(note.position, beatsInBar),
      notes: [index],
      alternatives: [{ position: fraction((beat.beat - origin) * parts + other.place, parts) }],
      chance: other.odds / (1 + other.odds),
    },
  ];
}

function otherTouch(reading: Reading | undefined, index: number, beatsInBar: number): readonly Unsure[] {
  if (!reading) return [];
  const { chance, next } = reading.touch;
  return [
    {
      kind: "touch",
      ...placeIn(reading.note.position, beatsInBar),
      notes: [index],
      alternatives: [{ dynamic: next.dynamic }],
      chance,
    },
  ];
}
