/**
 * Question: how open is each flam and each drag?
 *
 * Method: the gap from every grace stroke to the stroke after it. A flam is as written from 20 to 40 ms; of a drag
 * each stroke takes 30 to 60 ms (both common practice, no source; on the Groove MIDI Dataset the middle flam is 26 ms
 * open and eight in ten lie between 13 and 51 ms). The limits are widened by the 6 ms nobody hears (Friberg &
 * Sundberg 1995), so that no gap is called wrong by a difference that is not heard.
 */
import type { Ornament } from "../score/index.ts";
import type { Milliseconds } from "../units/index.ts";
import { hearableMs } from "./band.ts";
import { grouped } from "./grouped.ts";
import { placeOnPage } from "./limb.ts";
import type { Matched } from "./matching.ts";
import type { OrnamentFigures, OrnamentGap } from "./report.ts";
import type { Target } from "./target.ts";

const WRITTEN_GAP_MS: Readonly<
  Record<Ornament, { readonly tight: Milliseconds; readonly open: Milliseconds }>
> = {
  flam: { tight: 20, open: 40 },
  drag: { tight: 30, open: 60 },
};

/** One row for each kind of ornament that was met: flams first. */
export function ornamentFigures(matched: Matched, target: Target): readonly OrnamentFigures[] {
  const gaps = ornamentGaps(matched, target);
  return (["flam", "drag"] as const).flatMap((ornament): OrnamentFigures[] => {
    const each = gaps.filter((gap) => gap.ornament === ornament);
    if (each.length === 0) return [];
    const all = each.flatMap(({ gapsMs }) => gapsMs);
    const count = (place: OrnamentGap["place"]) => each.filter((gap) => gap.place === place).length;
    return [
      {
        ornament,
        asWritten: count("as-written"),
        tooTight: count("too-tight"),
        tooOpen: count("too-open"),
        noGrace: count("no-grace"),
        gapMs: all.length === 0 ? null : all.reduce((sum, gap) => sum + gap, 0) / all.length,
        each,
      },
    ];
  });
}

function ornamentGaps({ hits, strokes }: Matched, target: Target): readonly OrnamentGap[] {
  const graces = grouped(
    hits.flatMap((judged) => (judged.state === "grace" ? [judged] : [])),
    ({ targetIndex }) => targetIndex,
  );
  return strokes.flatMap(({ note, hit }): OrnamentGap[] => {
    if (!note.ornament) return [];
    const times = (graces.get(note.index) ?? []).map((grace) => grace.hit.time).sort((a, b) => a - b);
    const gapsMs = times.map((time, at) => ((times[at + 1] ?? hit.time) - time) * 1000);
    return [
      {
        ornament: note.ornament,
        targetIndex: note.index,
        voice: note.voice,
        ...placeOnPage(target, note.beat),
        gapsMs,
        place: placeOfGaps(note.ornament, gapsMs),
      },
    ];
  });
}

/**
 * Where the gaps of one ornament lie, first grace first. The worst decides; of a drag that is tight and open at once,
 * the tight one.
 */
export function placeOfGaps(ornament: Ornament, gapsMs: readonly Milliseconds[]): OrnamentGap["place"] {
  if (gapsMs.length === 0) return "no-grace";
  const { tight, open } = WRITTEN_GAP_MS[ornament];
  const notHeard = hearableMs(0);
  if (gapsMs.some((gap) => gap < tight - notHeard)) return "too-tight";
  return gapsMs.some((gap) => gap > open + notHeard) ? "too-open" : "as-written";
}
