/**
 * What a take is compared with: written strokes with their moments on the target's own clock.
 */
import type { Voice } from "../kit/index.ts";
import type { Dynamic, Groove, Ornament } from "../score/index.ts";
import { beatsPerBar, type Feel, type Metre, performed, STRAIGHT } from "../score/index.ts";
import type { Bpm, Seconds } from "../units/index.ts";

/** One written stroke, timed. Targets are in order of time. */
export interface TargetNote {
  readonly index: number;
  /** Seconds on the target's clock. */
  readonly time: Seconds;
  readonly voice: Voice;
  readonly dynamic: Dynamic;
  /** Felt beats from the target's first downbeat, as written. */
  readonly beat: number;
  readonly ornament?: Ornament;
}

export interface Target {
  readonly name: string;
  readonly metre: Metre;
  readonly feel: Feel;
  readonly tempoBpm: Bpm;
  readonly notes: readonly TargetNote[];
}

/**
 * A groove repeated over `bars` bars at a tempo, as a target whose first downbeat is at time 0.
 *
 * @example
 * grooveTarget(groove, { tempoBpm: 100, bars: 4 }).notes[0]?.time // => 0
 */
export function grooveTarget(groove: Groove, how: { readonly tempoBpm: Bpm; readonly bars: number }): Target {
  const notes = performed(groove, how).map(
    ({ time, note, beat }, index): TargetNote => ({
      index,
      time,
      beat,
      voice: note.voice,
      dynamic: note.dynamic,
      ...(note.ornament ? { ornament: note.ornament } : {}),
    }),
  );
  return { name: groove.name, metre: groove.metre, feel: groove.feel, tempoBpm: how.tempoBpm, notes };
}

/**
 * A target from bare strokes (a MIDI file): beats counted on an even grid from time 0.
 *
 * @param strokes in order of time.
 * @example
 * strokesTarget("Fill", [{ time: 0, voice: "snare", dynamic: "plain" }], { tempoBpm: 120, metre: FOUR_FOUR }).notes.length // => 1
 */
export function strokesTarget(
  name: string,
  strokes: readonly { readonly time: Seconds; readonly voice: Voice; readonly dynamic: Dynamic }[],
  grid: { readonly tempoBpm: Bpm; readonly metre: Metre; readonly beatOf?: (time: Seconds) => number },
): Target {
  const beatOf = grid.beatOf ?? ((time: Seconds) => (time * grid.tempoBpm) / 60);
  const notes = strokes.map(({ time, voice, dynamic }, index) => ({
    index,
    time,
    voice,
    dynamic,
    beat: beatOf(time),
  }));
  return { name, metre: grid.metre, feel: STRAIGHT, tempoBpm: grid.tempoBpm, notes };
}

/**
 * Beat of the bar, counted from 1, to which a stroke belongs: its own beat, or the one whose off-beat it is.
 *
 * @example
 * beatOfBar({ metre: FOUR_FOUR }, 7.5) // => 4
 */
export function beatOfBar(target: Pick<Target, "metre">, beat: number): number {
  const inBar = beatsPerBar(target.metre);
  // A thousandth of a beat early still belongs to the beat it was written on.
  return (((Math.floor(beat + 1e-3) % inBar) + inBar) % inBar) + 1;
}

/** Felt beats from the bar line, to a 48th of a beat: triplets and sixteenths each keep their own place. */
export function placeInBar(target: Pick<Target, "metre">, beat: number): number {
  const inBar = beatsPerBar(target.metre);
  const place = Math.round((((beat % inBar) + inBar) % inBar) * 48) / 48;
  return place >= inBar ? place - inBar : place;
}
