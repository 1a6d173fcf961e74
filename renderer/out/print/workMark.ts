/** Where on the staff the one thing to work on is written. */
import type { WorkOn, WorkOnPlace } from "../../../engine/grading/index.ts";
import type { Groove, Note } from "../../../engine/score/index.ts";
import { beatsPerBar } from "../../../engine/score/index.ts";
import { toNumber } from "../../../engine/units/index.ts";

/**
 * The place of its note in the groove's list of notes; undefined when it is nothing that is written at one place (a
 * drift, strokes that were added).
 *
 * @param place where in the take it showed most; the groove repeats, so its bars are folded.
 */
export function workNote(groove: Groove, workOn: WorkOn, place: WorkOnPlace | null): number | undefined {
  if (workOn.kind === "added" || workOn.kind === "drift" || workOn.kind === "form") return undefined;
  const voice = "voice" in workOn ? workOn.voice : undefined;
  const beats = beatsPerBar(groove.metre);
  const meant = (note: Note): boolean => {
    if (voice !== undefined && note.voice !== voice) return false;
    if (workOn.kind === "ornament" && note.ornament !== workOn.ornament) return false;
    if (workOn.kind === "accents" && note.dynamic !== "accent") return false;
    const position = toNumber(note.position);
    const beat = (position % beats) + 1;
    if (workOn.kind === "beat-leans" || workOn.kind === "beat-wanders") {
      return Math.abs(beat - workOn.beat) < 1e-2;
    }
    if (place === null) return false;
    const bar = Math.floor(position / beats);
    return bar === (place.bar - 1) % groove.bars && Math.floor(beat + 1e-3) === Math.floor(place.beat + 1e-3);
  };
  const found = groove.notes.findIndex(meant);
  return found === -1 ? undefined : found;
}
