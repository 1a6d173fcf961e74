/** Where each written stroke was played on the whole, and how far it spread: the means on the bar ring. */
import { leanAndSpread, type Report } from "../../../../engine/grading/index.ts";
import { type Groove, playedBeat } from "../../../../engine/score/index.ts";
import { beatSeconds, type Milliseconds, toNumber } from "../../../../engine/units/index.ts";
import { foldedPlace, type PlaceMean, ringSpan } from "../../../charts/index.ts";
import { driftAlong } from "./driftAlong.ts";

/**
 * One mean for every written stroke of the ring that was answered, the drift taken out: it has a chart of its own,
 * and would smear every place of the bar alike.
 *
 * @param bandMs half the band about the take's own lean; a mean outside it differs.
 */
export function placeMeans(report: Report, groove: Groove, bandMs: Milliseconds): readonly PlaceMean[] {
  const { tempoBpm, leanMs } = report;
  if (tempoBpm === null) return [];
  const { beats } = ringSpan(groove);
  const offsets = offsetsByNote(report, groove);
  const share = (ms: Milliseconds): number => ms / 1000 / beatSeconds(tempoBpm) / beats;
  return groove.notes.flatMap(({ position, voice }, index): readonly PlaceMean[] => {
    const beat = toNumber(position);
    const played = leanAndSpread(offsets.get(index) ?? []);
    if (beat >= beats || played.leanMs === null) return [];
    return [
      {
        voice,
        place: foldedPlace(playedBeat(groove.feel, beat) / beats + share(played.leanMs)),
        spread: played.spreadMs === null ? null : share(played.spreadMs),
        differs: Math.abs(played.leanMs - (leanMs ?? 0)) > bandMs,
      },
    ];
  });
}

/** The offsets of all strokes that answered a written note, by its place in the groove. */
function offsetsByNote(report: Report, groove: Groove): ReadonlyMap<number, readonly Milliseconds[]> {
  const driftMs = driftAlong(report, groove);
  const byNote = new Map<number, Milliseconds[]>();
  for (const judged of report.hits) {
    if (judged.state !== "matched") continue;
    const note = judged.targetIndex % groove.notes.length;
    const offset = judged.offsetMs - driftMs(judged.targetTime);
    const offsets = byNote.get(note);
    if (offsets) offsets.push(offset);
    else byNote.set(note, [offset]);
  }
  return byNote;
}
