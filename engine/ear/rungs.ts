/**
 * How hard a question is: an axis of rungs, from one surface among three that nobody confuses to eight in a row. A rung is
 * one unit of the axis; where between two rungs a listener stands is estimated in `threshold.ts`.
 *
 * The order is our own choice: first what differs in kind (drum or cymbal, high or low), then what differs in one thing only
 * (pitch, side, how far open, where it is struck, how hard), then more of them. How much two at once and each further one of a
 * row add is common practice of ear training, no source.
 */
import type { Chance } from "../units/index.ts";
import type { Moment, Moments, Sounded } from "./question.ts";
import { TOUCHES } from "./question.ts";
import { SURFACES, type Surface } from "./surface.ts";

export interface Rung {
  /** What is asked there, said to the teacher. */
  readonly words: string;
  /** What may sound. */
  readonly pool: readonly Surface[];
  /** How many moments. */
  readonly length: number;
  /** Two at once. */
  readonly together?: true;
  /** Loud or soft is asked as well. */
  readonly touch?: true;
}

const FEW = ["kick", "snare", "hi-hat-closed", "floor-tom", "crash-left"] as const;
const HANDS = ["kick", "snare", "hi-hat-closed", "high-tom", "floor-tom", "ride", "crash-left"] as const;
const ROW = [
  "kick",
  "snare",
  "hi-hat-closed",
  "hi-hat-open",
  "high-tom",
  "floor-tom",
  "ride",
  "crash-left",
] as const;

/** Rung 1 is the first. */
export const RUNGS: readonly Rung[] = [
  { words: "one of three", pool: ["kick", "snare", "crash-left"], length: 1 },
  { words: "one of five", pool: FEW, length: 1 },
  { words: "one of seven", pool: HANDS, length: 1 },
  { words: "hi-hat open or closed", pool: ["hi-hat-closed", "hi-hat-open"], length: 1 },
  { words: "toms by pitch", pool: ["high-tom", "mid-tom", "floor-tom"], length: 1 },
  { words: "loud or soft", pool: ["snare", "floor-tom", "ride"], length: 1, touch: true },
  { words: "bell or bow of the ride", pool: ["ride", "bell"], length: 1 },
  { words: "head, rim shot or cross-stick", pool: ["snare", "rim-shot", "cross-stick"], length: 1 },
  { words: "crash left or right", pool: ["crash-left", "crash-right"], length: 1 },
  { words: "two in a row", pool: ROW, length: 2 },
  {
    words: "hi-hat open, half, closed or pedal",
    pool: ["hi-hat-closed", "hi-hat-half", "hi-hat-open", "hi-hat-pedal"],
    length: 1,
  },
  { words: "one of all", pool: SURFACES, length: 1 },
  { words: "two at once", pool: ROW, length: 1, together: true },
  { words: "three in a row", pool: ROW, length: 3 },
  { words: "four in a row", pool: ROW, length: 4 },
  { words: "five in a row", pool: ROW, length: 5 },
  { words: "two in a row, two at once", pool: ROW, length: 2, together: true },
  { words: "six in a row", pool: ROW, length: 6 },
  { words: "seven in a row", pool: SURFACES, length: 7 },
  { words: "eight in a row", pool: SURFACES, length: 8 },
];

/** A rung by its number from 1, kept within those there are, and of what this kit has. */
export function rungAt(number: number): Rung {
  const place = Math.min(RUNGS.length, Math.max(1, Math.round(number))) - 1;
  const rung = RUNGS[place];
  if (!rung) throw new RangeError(`There is no rung ${number}; they are counted from 1 to ${RUNGS.length}.`);
  return rung;
}

/** The chance to be right by guessing among all that can be answered there. */
export function guessChance({ pool, length, together, touch }: Rung): number {
  const one = together ? (pool.length * (pool.length - 1)) / 2 : pool.length;
  return 1 / (one * (touch ? TOUCHES.length : 1)) ** length;
}

/**
 * A question of a rung.
 *
 * @param weightOf how much each surface should come up: see `confusion.ts`. All alike when left out.
 */
export function drawQuestion(
  { pool, length, together, touch }: Rung,
  chance: Chance,
  weightOf: (surface: Surface) => number = () => 1,
): Moments {
  return Array.from({ length }, (): Moment => {
    const first = drawn(pool, chance, weightOf);
    const sounded = (surface: Surface): Sounded =>
      touch ? { surface, touch: TOUCHES[chance() < 0.5 ? 0 : 1] } : { surface };
    if (!together) return [sounded(first)];
    return [
      sounded(first),
      sounded(
        drawn(
          pool.filter((each) => each !== first && canSoundTogether(each, first)),
          chance,
          weightOf,
        ),
      ),
    ];
  });
}

/** The two cymbals of a hi-hat are one pair: it is never open and closed at once. */
function canSoundTogether(one: Surface, other: Surface): boolean {
  return !(one.startsWith("hi-hat") && other.startsWith("hi-hat"));
}

/** One of them by lot, each as likely as it weighs. */
function drawn(pool: readonly Surface[], chance: Chance, weightOf: (surface: Surface) => number): Surface {
  const whole = pool.reduce((sum, each) => sum + weightOf(each), 0);
  let left = chance() * whole;
  for (const each of pool) {
    left -= weightOf(each);
    if (left < 0) return each;
  }
  const last = pool.at(-1);
  if (last === undefined)
    throw new RangeError("Nothing can be drawn from an empty pool: name what may sound.");
  return last;
}
