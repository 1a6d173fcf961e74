import type { JudgedHit } from "../../engine/grading/index.ts";
import { type Groove, grooveBeats, playedBeat } from "../../engine/score/index.ts";
import { type Bpm, toNumber } from "../../engine/units/index.ts";

/** The target's tempo, from where its notes are written and when they sound: the report does not carry it. */
export function targetTempo(hits: readonly JudgedHit[], groove: Groove): Bpm | undefined {
  let last: { readonly beat: number; readonly time: number } | undefined;
  for (const judged of hits) {
    if (judged.state !== "matched" || judged.targetTime <= (last?.time ?? 0)) continue;
    const note = groove.notes[judged.targetIndex % groove.notes.length];
    if (note?.voice !== judged.targetVoice) continue;
    const repeats = Math.floor(judged.targetIndex / groove.notes.length);
    const beat = repeats * grooveBeats(groove) + playedBeat(groove.feel, toNumber(note.position));
    last = { beat, time: judged.targetTime };
  }
  return last && (last.beat * 60) / last.time;
}
