/** What the chart of lean by beat shows, and what its table says: one row a beat. */
import { type BeatFigures, isFineWork, isSteady, type WorkOn } from "../../engine/grading/index.ts";
import type { Milliseconds } from "../../engine/units/index.ts";

/**
 * A beat stands inside the band or outside it, or inside but wandering; or the report names one of its voices
 * as the thing to work on, which the beat as a whole may hide.
 */
export type BeatState = "inside" | "outside" | "wanders" | "voice-leans" | "voice-wanders" | "untold";

export interface BeatMark extends BeatFigures {
  readonly state: BeatState;
}

/** What beats are held against. */
export interface BeatBand {
  /** The take's own lean, the middle of the band: the constant part is feel, what differs from it is not. */
  readonly leanMs: Milliseconds | null;
  /** Half the width of the band. */
  readonly bandMs: Milliseconds;
  readonly workOn?: WorkOn | undefined;
}

/** Each beat with where it stands. */
export function beatMarks(perBeat: readonly BeatFigures[], band: BeatBand): readonly BeatMark[] {
  return perBeat.map((figures) => ({ ...figures, state: stateOf(figures, band) }));
}

function stateOf({ beat, leanMs, spreadMs }: BeatFigures, band: BeatBand): BeatState {
  if (leanMs === null) return "untold";
  if (Math.abs(leanMs - (band.leanMs ?? 0)) > band.bandMs) return "outside";
  if (spreadMs !== null && !isSteady(spreadMs, band.bandMs)) return "wanders";
  const { workOn } = band;
  if (workOn?.kind !== "beat-leans" && workOn?.kind !== "beat-wanders") return "inside";
  if (isFineWork(workOn, band.bandMs)) return "inside";
  // The report counts off-beats as 4.5, which belongs to beat 4.
  if (Math.floor(workOn.beat + 1e-3) !== beat) return "inside";
  return workOn.kind === "beat-leans" ? "voice-leans" : "voice-wanders";
}

const STATE_WORDS: Readonly<Record<BeatState, string>> = {
  inside: "inside the band",
  outside: "outside the band",
  wanders: "wanders",
  "voice-leans": "one voice leans",
  "voice-wanders": "one voice wanders",
  untold: "too few strokes",
};

export function stateWords(state: BeatState): string {
  return STATE_WORDS[state];
}

/** Steps a person reads off an axis without counting. */
const STEPS_MS = [10, 20, 50, 100, 200, 500, 1000] as const;

/**
 * The ticks of an axis of milliseconds, the beat in the middle, wide enough for all that is drawn on it.
 *
 * @param reachMs the furthest thing drawn, either way.
 * @example
 * axisTicks(43) // => [-60, -40, -20, 0, 20, 40, 60]
 */
export function axisTicks(reachMs: Milliseconds): readonly Milliseconds[] {
  const step = STEPS_MS.find((candidate) => reachMs / candidate <= 3) ?? 1000;
  const count = Math.max(1, Math.ceil(reachMs / step));
  return Array.from({ length: 2 * count + 1 }, (_, index) => (index - count) * step);
}
