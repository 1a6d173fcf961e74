/**
 * Takes made for the tests: a target played with known slips, drift and chance.
 */
import { grooveTarget, type Target, type TargetNote } from "../../../engine/grading/index.ts";
import type { Hit, Voice } from "../../../engine/kit/index.ts";
import { DYNAMIC_VELOCITY, parseGrid } from "../../../engine/score/index.ts";

export const ROCK = parseGrid(`
groove: rock
name: Rock eighths
metre: 4/4
feel: straight
tempo: 80-140

hi-hat-closed | x.x. x.x. x.x. x.x. |
snare         | .... x... .... x... |
kick          | x... .... x.x. .... |
`);

export const FUNK = parseGrid(`
groove: funk
name: Funk sixteenths
metre: 4/4
feel: straight
tempo: 80-120

hi-hat-closed | xxxx xxxx xxxx xxxx | xxxx xxxx xxxx xx.. |
hi-hat-open   | .... .... .... .... | .... .... .... ..x. |
snare         | .... X..g .g.. X... | .... X..g .g.. X..g |
kick          | x..x ..x. ..x. .... | x.x. ..x. ..x. ..x. |
`);

export const SHUFFLE = parseGrid(`
groove: shuffle
name: Shuffle
metre: 4/4
feel: swung 2 eighths
tempo: 60-160

ride  | xx xx xx xx |
snare | .. x. .. x. |
kick  | x. .. x. .. |
`);

/** A pad of its own for every voice. */
const PADS = new Map<Voice, number>();

/** A strike; `pad` follows the voice. */
export function strike(time: number, voice: Voice, velocity = 0.63): Hit {
  const pad = PADS.get(voice) ?? PADS.size + 1;
  PADS.set(voice, pad);
  return { time, voice, zone: "whole", velocity, pad };
}

/** The target played; `timed` gives the moment of each note, or nothing to leave it out. */
export function played(
  target: Target,
  timed: (note: TargetNote) => number | undefined = ({ time }) => time,
): Hit[] {
  return target.notes
    .flatMap((note) => {
      const time = timed(note);
      return time === undefined ? [] : [strike(time, note.voice, DYNAMIC_VELOCITY[note.dynamic])];
    })
    .sort((a, b) => a.time - b.time);
}

/** The same with the grace strokes of written flams and drags, each `gapMs` before the stroke after it. */
export function withGraces(target: Target, hits: readonly Hit[], gapMs = 32): Hit[] {
  const graces = target.notes.flatMap(({ time, voice, ornament }) =>
    [1, 2]
      .slice(0, ornament === "drag" ? 2 : ornament ? 1 : 0)
      .map((before) => strike(time - (before * gapMs) / 1000, voice, DYNAMIC_VELOCITY.ghost / 2)),
  );
  return [...hits, ...graces].sort((a, b) => a.time - b.time);
}

export function rock(bars: number, tempoBpm = 100): Target {
  return grooveTarget(ROCK, { tempoBpm, bars });
}
