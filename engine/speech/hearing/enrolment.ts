/**
 * Question: how does this person say each syllable?
 * An example is kept as power in bands, frame by frame, as it stands above the noise it was said in. It holds no pitch and no
 * sound; it is held in memory and written nowhere.
 */
import type { Seconds } from "../../units/index.ts";
import { type Frame, framesOf, meanFrame, powerOf } from "./bands.ts";
import { centreAfter } from "./centre.ts";
import { SoundRefusal, trouble } from "./refusal.ts";
import { atHearingRate } from "./resample.ts";
import { type Span, saidSpans } from "./saidSpans.ts";
import { partOf, type Sound } from "./sound.ts";

/** One syllable said once. */
export interface Example {
  readonly syllable: string;
  /** From just before its first sound to its last. */
  readonly frames: readonly Frame[];
  /** Seconds from the first frame to where its sound begins. */
  readonly beginsAt: Seconds;
  /** From there to where its beat is felt. */
  readonly centreAfterSeconds: Seconds;
}

export type Enrolment = readonly Example[];

/** Of each syllable so many examples are asked for. */
export const EXAMPLES_ASKED = 5;

const BEFORE_SECONDS: Seconds = 0.015;
const AFTER_SECONDS: Seconds = 0.02;
/** Longer is not one syllable. Our choice: a slow "seven" takes 0.8 s. */
const LONGEST_SECONDS: Seconds = 1.2;

/**
 * The examples in a recording of one syllable, said once or several times with quiet between.
 *
 * @throws SoundRefusal where it cannot be used, with the reason.
 */
export function examplesIn(syllable: string, sound: Sound): readonly Example[] {
  const refusal = trouble(sound);
  if (refusal) throw new SoundRefusal(refusal);
  return saidSpans(sound).flatMap((span) => {
    if (span.to - span.from > LONGEST_SECONDS)
      throw new SoundRefusal({ kind: "too-long", seconds: span.to - span.from });
    return [exampleAt(syllable, sound, span)];
  });
}

function exampleAt(syllable: string, sound: Sound, { from, to }: Span): Example {
  const begins = Math.max(0, from - BEFORE_SECONDS);
  const frames = framesOf(atHearingRate(partOf(sound, begins, to + AFTER_SECONDS)));
  const noise = noiseAround(sound, from, to);
  const above = frames.map((frame) => frame.map((power, band) => Math.max(0, power - (noise[band] ?? 0))));
  const beginsAt = from - begins;
  return { syllable, frames: above, beginsAt, centreAfterSeconds: centreAfter(above, beginsAt) };
}

/** The noise beside what is said, band by band; silence where there is nothing beside it. */
function noiseAround(sound: Sound, from: Seconds, to: Seconds): Frame {
  const margin = 0.03;
  const beside = [
    partOf(sound, Math.max(0, from - 0.4), from - margin),
    partOf(sound, to + margin, to + 0.4),
  ];
  const frames = beside.flatMap((part) => {
    const all = framesOf(atHearingRate(part));
    // The window of the first and last frames reaches over the edge.
    return all.slice(2, -2);
  });
  const quietest = [...frames].sort((a, b) => powerOf(a) - powerOf(b));
  return meanFrame(quietest.slice(0, Math.ceil(quietest.length / 2)));
}
