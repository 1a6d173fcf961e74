/** How a question sounds from the program's own recordings. */
import { type Moments, type Sounded, strokeOf } from "../../../engine/ear/index.ts";
import type { Seconds, Velocity } from "../../../engine/units/index.ts";
import type { Planned } from "../../audio/strokePlayer.ts";
import { FIRST_TOMS, TOMS, type TomPitchesOf, tomSound } from "../../audio/tomPitches.ts";

/** From one moment of a row to the next: time to hear each, short enough to keep the row in mind. Our choice. */
export const MOMENT_SECONDS: Seconds = 0.7;
/** Between what was asked and what was said, when the two are laid side by side. */
export const CONTRAST_SECONDS: Seconds = 1.1;

/** As hard as a plain stroke, and the two that are told apart. Our choice: 18 dB apart by the sampler's own curve. */
const PLAIN: Velocity = 0.7;
export const LOUD: Velocity = 0.95;
export const SOFT: Velocity = 0.3;

/** A half-open hi-hat has no recording of its own: the open one, stopped so long after it is struck. */
const HALF_RINGS_SECONDS: Seconds = 0.2;

/** Strokes with times from `from`. */
export function soundedStrokes(
  moments: Moments,
  toms: TomPitchesOf = FIRST_TOMS,
  from: Seconds = 0,
): readonly Planned[] {
  return moments.flatMap((moment, place) =>
    moment.flatMap((sounded) => strokesOf(sounded, toms, from + place * MOMENT_SECONDS)),
  );
}

function strokesOf({ surface, touch }: Sounded, toms: TomPitchesOf, time: Seconds): readonly Planned[] {
  const velocity = touch === "loud" ? LOUD : touch === "soft" ? SOFT : PLAIN;
  const tom = TOMS.find((each) => each === surface);
  const stroke: Planned = { time, velocity, ...strokeOf(surface), ...(tom ? tomSound(toms[tom]) : {}) };
  if (surface !== "hi-hat-half") return [stroke];
  return [stroke, { time: time + HALF_RINGS_SECONDS, voice: "hi-hat-open", isChoke: true }];
}

/** How long a question sounds until its last stroke. */
export function lengthOf(moments: Moments): Seconds {
  return (moments.length - 1) * MOMENT_SECONDS;
}

/** What was asked, and after a breath what was said. */
export function contrastStrokes(
  asked: Moments,
  said: Moments,
  toms: TomPitchesOf = FIRST_TOMS,
): readonly Planned[] {
  return [...soundedStrokes(asked, toms), ...soundedStrokes(said, toms, lengthOf(asked) + CONTRAST_SECONDS)];
}
