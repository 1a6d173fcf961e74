/** Where a player's phrases begin, in a sentence, with the reason. */
import type { Level } from "../../../engine/score/index.ts";
import {
  beginningRung,
  isLongAgo,
  type LeftOff,
  LONG_AGO_DAYS,
  RUNGS,
  rungWords,
} from "../../../engine/speech/index.ts";

/** @param name `null` where nobody in particular plays. */
export function beginningWords(name: string | null, level: Level, leftOff: LeftOff | null): string {
  const rung = beginningRung(level, leftOff);
  const step = `step ${rung} of ${RUNGS.length}`;
  const phrases = `${rungWords(rung)}.`;
  if (name === null)
    return `They begin at ${step}: ${phrases} How far they come is remembered in a lesson only.`;
  if (!leftOff) return `${name} has not struck any yet, and begins at ${step}, by the level: ${phrases}`;
  if (isLongAgo(leftOff))
    return `${name} left off at step ${leftOff.rung}, ${agoWords(leftOff.daysAgo)}, and begins at ${step}: after more than ${LONG_AGO_DAYS} days the start is one easier. ${capital(phrases)}`;
  return `${name} goes on at ${step}, as left off ${agoWords(leftOff.daysAgo)}: ${phrases}`;
}

function agoWords(days: number): string {
  if (days === 0) return "earlier today";
  return days === 1 ? "yesterday" : `${days} days ago`;
}

function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
