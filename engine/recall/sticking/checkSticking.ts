/**
 * Question: was the rudiment played with the hands it is written for, and how?
 * Method: `alignHands` says which stroke each strike is; the figures are taken from what was matched. Limits of hearing and
 * of ornaments are those of grading.
 */
import type { Rudiment } from "../../catalogue/index.ts";
import { type AlignedHands, alignHands } from "./alignHands.ts";
import { type BeatLengths, beatLengths } from "./beatLengths.ts";
import {
  accentFigures,
  evennessOf,
  graceFigures,
  type Matched,
  secondStrokeFigures,
  tempoCourse,
} from "./figures.ts";
import type { PlayedStroke } from "./playedStroke.ts";
import type { JudgedStroke, StickingReport } from "./stickingReport.ts";

/** Thrown where nothing can be said of a performance; the message says why. */
export class StickingError extends Error {
  override readonly name = "StickingError";
}

/** Fewer strikes are no rudiment. Our choice. */
const FEWEST_STROKES = 4;

/**
 * Lays a performance beside a rudiment.
 *
 * @param played in order of time, as many cycles as there are.
 * @throws StickingError when there are fewer than four strikes, or all are of one hand and the rudiment is not.
 */
export function checkSticking(rudiment: Rudiment, played: readonly PlayedStroke[]): StickingReport {
  if (played.length < FEWEST_STROKES)
    throw new StickingError(
      `There are ${played.length} strikes, too few to tell a sticking: play the rudiment at least once or twice.`,
    );
  if (played.every(({ hand }) => hand === played[0]?.hand))
    throw new StickingError(
      "All strikes are on one of the two surfaces: the hands cannot be told apart. Give each hand its own.",
    );
  const aligned = alignHands(rudiment, played);
  const lengths = beatLengths(aligned.contacts, played, aligned.places);
  const matched = matchedStrokes(aligned, played);
  return {
    rudimentId: rudiment.id,
    mirrored: aligned.mirrored,
    strokes: judged(aligned, played, lengths),
    evenness: evennessOf(matched, lengths),
    accents: accentFigures(matched),
    graces: graceFigures(matched, aligned.contacts),
    secondStrokes: secondStrokeFigures(matched, lengths),
    tempo: tempoCourse(matched, lengths),
  };
}

function matchedStrokes(
  { contacts, places }: AlignedHands,
  played: readonly PlayedStroke[],
): readonly Matched[] {
  return played
    .flatMap((stroke, strike): Matched[] => {
      const place = places[strike];
      return typeof place === "number" ? [{ ...stroke, strike, place, contact: contacts.at(place) }] : [];
    })
    .sort((a, b) => a.place - b.place);
}

function judged(
  { contacts, places }: AlignedHands,
  played: readonly PlayedStroke[],
  lengths: BeatLengths | undefined,
): readonly JudgedStroke[] {
  const cycleOf = (place: number) => Math.floor(place / contacts.perCycle) + 1;
  const struck = played.map(({ time, hand }, strike): JudgedStroke => {
    const place = places[strike] ?? "added";
    if (typeof place !== "number")
      return { time, hand, expectedHand: null, state: place, role: null, cycle: null };
    const { hand: expectedHand, role } = contacts.at(place);
    const state = hand === expectedHand ? "as written" : "other hand";
    return { time, hand, expectedHand, state, role, cycle: cycleOf(place) };
  });
  return [...struck, ...leftOut(contacts, played, places, lengths)].sort((a, b) => a.time - b.time);
}

/** Places between matched ones that no strike has. */
function leftOut(
  contacts: AlignedHands["contacts"],
  played: readonly PlayedStroke[],
  places: AlignedHands["places"],
  lengths: BeatLengths | undefined,
): readonly JudgedStroke[] {
  const byPlace = new Map<number, number>();
  places.forEach((place, strike) => {
    if (typeof place === "number") byPlace.set(place, strike);
  });
  const last = Math.max(-1, ...byPlace.keys());
  const missing: JudgedStroke[] = [];
  let before: number | undefined;
  for (let place = Math.min(last, ...byPlace.keys()); place <= last; place += 1) {
    if (byPlace.has(place)) before = place;
    else if (before !== undefined) {
      const strike = byPlace.get(before) ?? 0;
      const from = contacts.at(before);
      const { hand, role, beat, aheadMs } = contacts.at(place);
      const beats = (beat - from.beat) * (lengths?.at(strike) ?? 0);
      const time = (played[strike]?.time ?? 0) + beats + (from.aheadMs - aheadMs) / 1000;
      const cycle = Math.floor(place / contacts.perCycle) + 1;
      missing.push({ time, hand: null, expectedHand: hand, state: "left out", role, cycle });
    }
  }
  return missing;
}
