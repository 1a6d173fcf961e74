/** What is written as strokes to be sounded. */
import { inARow, type Written } from "../../../engine/catalogue/index.ts";
import { beatsPerBar, DYNAMIC_VELOCITY, type Groove, performed } from "../../../engine/score/index.ts";
import { type Bpm, beatSeconds, type Seconds } from "../../../engine/units/index.ts";
import type { PlannedStroke } from "../../audio/strokePlayer.ts";

export interface PlayedStrokes {
  readonly strokes: readonly PlannedStroke[];
  /** From the first beat to where it would come round. */
  readonly seconds: Seconds;
}

/**
 * All of it once, at its usual tempo; of a part, each section at its own.
 *
 * @param speed 1 as usual; 0.5 takes twice as long.
 */
export function playedStrokes(written: Written, speed: number): PlayedStrokes {
  const strokes: PlannedStroke[] = [];
  let seconds = 0;
  for (const stretch of inARow(written)) {
    const played = strokesOf(
      { ...written.music, ...stretch, tempoBpm: at(stretch.tempoBpm) },
      stretch.tempoBpm * speed,
    );
    const from = seconds;
    strokes.push(...played.strokes.map((stroke) => ({ ...stroke, time: from + stroke.time })));
    seconds += played.seconds;
  }
  return { strokes, seconds };
}

function at(tempoBpm: Bpm): Groove["tempoBpm"] {
  return { low: tempoBpm, high: tempoBpm };
}

function strokesOf(groove: Groove, tempoBpm: Bpm): PlayedStrokes {
  const strokes = performed(groove, { tempoBpm, bars: groove.bars }).map(({ time, note }) => ({
    time,
    voice: note.voice,
    velocity: DYNAMIC_VELOCITY[note.dynamic],
  }));
  return { strokes, seconds: groove.bars * beatsPerBar(groove.metre) * beatSeconds(tempoBpm) };
}
