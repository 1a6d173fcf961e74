/**
 * Question: which hand or foot played it, and where in the written bars?
 * A kit does not say which hand struck; the family of voices is what can be known of it.
 */
import { familyOf, type Voice } from "../kit/index.ts";
import { beatsPerBar } from "../score/index.ts";
import type { Limb, WorkOnPlace } from "./report.ts";
import { beatOfBar, type Target } from "./target.ts";

/** The limb a voice is played by. */
export function limbOf(voice: Voice): Limb {
  return familyOf(voice);
}

/** Limbs in the order in which they keep the time for the others: of two, the first is the one to measure from. Our choice. */
const TIME_KEEPERS: readonly Limb[] = ["hats", "cymbals", "pedal", "percussion", "snare", "toms", "kick"];

/** How much a limb keeps the time: the smaller, the more. */
export function timeKeeping(limb: Limb): number {
  return TIME_KEEPERS.indexOf(limb);
}

/**
 * Bar of the target, from 1, and beat of the bar, from 1, of a written stroke.
 *
 * @example
 * placeOnPage({ metre: FOUR_FOUR }, 7.5) // => { bar: 2, beat: 4 }
 */
export function placeOnPage(target: Pick<Target, "metre">, beat: number): WorkOnPlace {
  return { bar: barOfTarget(target, beat) + 1, beat: beatOfBar(target, beat) };
}

/** Bar of the target, from 0. A thousandth of a beat early still belongs to the bar it was written in. */
export function barOfTarget(target: Pick<Target, "metre">, beat: number): number {
  return Math.floor((beat + 1e-3) / beatsPerBar(target.metre));
}
