import { strokesTarget, type Target } from "../engine/grading/index.ts";
import { beatsPerQuarter, type Dynamic, FOUR_FOUR } from "../engine/score/index.ts";
import { toNumber, type Velocity } from "../engine/units/index.ts";
import type { TakeFile } from "./takes.ts";

/** Below this strength a stroke in a target file is meant as a ghost note, from the other on as an accent. Our choice. */
const GHOST_BELOW: Velocity = 0.35;
const ACCENT_FROM: Velocity = 0.87;

function dynamicOf(velocity: Velocity): Dynamic {
  if (velocity < GHOST_BELOW) return "ghost";
  return velocity >= ACCENT_FROM ? "accent" : "plain";
}

/**
 * A MIDI file as a target. Its own tempo and metre are what it is written in, unless a click says otherwise.
 */
export function fileTarget(name: string, { file, hits }: TakeFile, clickBpm: number | undefined): Target {
  const metre = file.metres[0]?.metre ?? FOUR_FOUR;
  const perQuarter = toNumber(beatsPerQuarter(metre));
  const tempos = file.tempos.map(({ time, tempoBpm }) => ({
    time,
    beatsPerSecond: (tempoBpm * perQuarter) / 60,
  }));
  const beatOf = (time: number): number =>
    tempos.reduce((beats, tempo, index) => {
      const until = Math.min(time, tempos[index + 1]?.time ?? time);
      return until > tempo.time ? beats + (until - tempo.time) * tempo.beatsPerSecond : beats;
    }, 0);
  const strokes = hits.map(({ time, voice, velocity }) => ({ time, voice, dynamic: dynamicOf(velocity) }));
  return clickBpm === undefined
    ? strokesTarget(name, strokes, { tempoBpm: (tempos[0]?.beatsPerSecond ?? 2) * 60, metre, beatOf })
    : strokesTarget(name, strokes, { tempoBpm: clickBpm, metre });
}
