/** A sticking that is said: whether it is the one asked for, and which others may be offered beside it. */
import { RUDIMENTS, type Rudiment, stickingOf } from "../../catalogue/index.ts";
import type { Chance } from "../../units/index.ts";

/** Stickings offered at once, the right one among them. */
const OFFERED = 4;

/** Letters only: how it is spaced, and what parts its leads, is not asked. */
function lettersOf(sticking: string): string {
  return sticking.replace(/[^a-z]/gi, "");
}

/** One lead is enough where the two are written. */
function leadsOf(rudiment: Rudiment): readonly string[] {
  const whole = stickingOf(rudiment);
  const [lead = whole] = whole.split("/");
  return [lettersOf(whole), lettersOf(lead)];
}

/**
 * Whether what was typed is the rudiment's sticking: with its grace strokes in small letters, or the main strokes alone
 * without them, one lead or both.
 *
 * @example
 * isStickingOf(rudimentById("flam-tap"), "RRLL") // => true
 */
export function isStickingOf(rudiment: Rudiment, given: string): boolean {
  const said = lettersOf(given);
  if (said === "") return false;
  const right = leadsOf(rudiment);
  if (right.includes(said)) return true;
  // Without graces it may be typed in small letters throughout.
  const mains = right.map((each) => each.replace(/[a-z]/g, ""));
  return mains.includes(said.toUpperCase()) && (said === said.toUpperCase() || said === said.toLowerCase());
}

/** Four stickings in an order that chance draws, the right one among them; others of the same family first. */
export function offeredStickings(rudiment: Rudiment, chance: Chance): readonly string[] {
  const right = stickingOf(rudiment);
  const drawn = RUDIMENTS.filter((other) => stickingOf(other) !== right)
    .map((other) => ({
      sticking: stickingOf(other),
      order: (other.family === rudiment.family ? 0 : 1) + chance(),
    }))
    .sort((a, b) => a.order - b.order)
    .map(({ sticking }) => sticking);
  const others = [...new Set(drawn)].slice(0, OFFERED - 1);
  return [right, ...others]
    .map((sticking) => ({ sticking, order: chance() }))
    .sort((a, b) => a.order - b.order)
    .map(({ sticking }) => sticking);
}
