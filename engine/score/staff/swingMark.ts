/**
 * Swung music is written straight under a mark, as charts do: two even eighths (or sixteenths) that are played long
 * and short. Grooves whose grid is in triplets are written so as well, unless triplets are most of what they have.
 */
import { add, compare, type Fraction, floor, fraction, subtract } from "../../units/index.ts";
import type { Feel } from "../feel.ts";
import type { Note } from "../groove.ts";

/** Two even notes of this kind are played as long and short, `ratio` to 1. */
export interface SwingMark {
  readonly unit: "eighths" | "sixteenths";
  readonly ratio: number;
}

/** Notes of a swung piece in the places where they are written, in felt beats, in the order given. */
export interface SwingWriting {
  readonly mark?: SwingMark;
  readonly positions: readonly Fraction[];
}

const HALF = fraction(1, 2);
const TWO_THIRDS = fraction(2, 3);

/**
 * How the notes are written.
 * A grid in triplets is written straight where its beats hold only first and last thirds; a beat with any other stroke stays a
 * triplet under the mark. When those are half or more of the beats with an off-beat, all stay triplets, and the
 * mark is left out: the page says already what is played (our choice).
 */
export function swingWriting(feel: Feel, notes: readonly Note[]): SwingWriting {
  const positions = notes.map((note) => note.position);
  if (feel.kind === "straight") return { positions };
  if (feel.written !== "triplets") return { mark: { unit: feel.written, ratio: feel.ratio }, positions };

  const beats = new Map<number, "straight" | "triplet">();
  for (const position of positions) {
    const place = subtract(position, fraction(floor(position)));
    if (place.num === 0) continue;
    const beat = floor(position);
    if (compare(place, TWO_THIRDS) !== 0) beats.set(beat, "triplet");
    else if (!beats.has(beat)) beats.set(beat, "straight");
  }
  const triplets = [...beats.values()].filter((kind) => kind === "triplet").length;
  if (beats.size === 0 || triplets * 2 >= beats.size) return { positions };
  return {
    mark: { unit: "eighths", ratio: feel.ratio },
    positions: positions.map((position) => {
      const beat = floor(position);
      const swung = beats.get(beat) === "straight" && position.den !== 1;
      return swung ? add(fraction(beat), HALF) : position;
    }),
  };
}
