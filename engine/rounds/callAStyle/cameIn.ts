/**
 * Question: on which bar of the click did the player come in?
 *
 * Nobody who was not counted in owes the click an entry: a bar or two is listened to first, and the bar that is then begun is
 * the first. After a count-in the one is where the count-in put it, and whoever comes later is late.
 */
import type { Hit } from "../../kit/index.ts";
import { beatsPerBar, isPlayedClick, type Metre } from "../../score/index.ts";
import { beatSeconds, type Seconds } from "../../units/index.ts";
import type { TakeClick } from "./judgement.ts";

/** Strokes up to so many beats ahead of a bar line, and a little early at that, lead into its bar: an upbeat. Our choice. */
const UPBEAT_BEATS = 1.1;

/**
 * The click from the first beat of the bar the player came in on; as it is where it counted in, where it is not known whether it
 * did, and where nothing was struck.
 *
 * @param hits in order of time, on the click's clock.
 * @param metre of the groove that is played.
 */
export function clickFromEntry<Of extends TakeClick>(click: Of, hits: readonly Hit[], metre: Metre): Of {
  const listened = secondsListened(click, hits, metre);
  return listened === 0 ? click : { ...click, from: click.from + listened };
}

function secondsListened(click: TakeClick, [first]: readonly Hit[], metre: Metre): Seconds {
  if (!first || !isPlayedClick(click) || click.countInBars > 0) return 0;
  const beat = beatSeconds(click.tempoBpm);
  const bar = beatsPerBar(metre) * beat;
  const upbeat = Math.min(UPBEAT_BEATS * beat, bar / 2);
  return Math.max(0, Math.floor((first.time - click.from + upbeat) / bar)) * bar;
}
