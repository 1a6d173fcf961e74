/**
 * Question: from when to when is something said?
 * Method: loudness in steps of 5 ms against the noise of the room and against the loudest of it.
 */
import type { Seconds } from "../../units/index.ts";
import { noisePower, powers } from "./loudness.ts";
import { type Sound, soundSeconds } from "./sound.ts";

export interface Span {
  readonly from: Seconds;
  readonly to: Seconds;
}

const STEP_SECONDS: Seconds = 0.005;
/** Softer than this beside the loudest is not heard as part of it: −32 dB. Our choice. */
const LEAST_OF_LOUDEST = 10 ** -3.2;
/** Something said stands this many times above the noise: 9 dB. Our choice. */
const LEAST_OVER_NOISE = 8;
/** Within a syllable it is never silent for longer: the closure of a stop lasts up to about 120 ms. Our choice. */
const LONGEST_CLOSURE_SECONDS: Seconds = 0.18;
/** Shorter is a click of the tongue or the mouse. Our choice. */
const SHORTEST_SECONDS: Seconds = 0.02;

/** The stretches in which something is said, with at least {@link LONGEST_CLOSURE_SECONDS} of quiet between. */
export function saidSpans(sound: Sound): readonly Span[] {
  const all = powers(sound, STEP_SECONDS);
  const loudest = all.reduce((most, power) => Math.max(most, power), 0);
  const least = Math.max(loudest * LEAST_OF_LOUDEST, noisePower(all) * LEAST_OVER_NOISE);
  const spans: { from: Seconds; to: Seconds }[] = [];
  all.forEach((power, at) => {
    if (power <= least) return;
    const from = at * STEP_SECONDS;
    const last = spans.at(-1);
    if (last && from - last.to < LONGEST_CLOSURE_SECONDS) last.to = from + STEP_SECONDS;
    else spans.push({ from, to: from + STEP_SECONDS });
  });
  const end = soundSeconds(sound);
  return spans
    .filter(({ from, to }) => to - from >= SHORTEST_SECONDS)
    .map(({ from, to }) => ({ from, to: Math.min(to, end) }));
}
