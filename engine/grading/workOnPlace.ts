/**
 * Question: where does the one thing to work on show best?
 *
 * Answer: the bar in which it happened most often or went furthest, and there the beat; the first one among equals.
 */
import { familyOf } from "../kit/index.ts";
import { grouped } from "./grouped.ts";
import { barOfTarget, limbOf, placeOnPage } from "./limb.ts";
import type { Stroke } from "./matching.ts";
import type { Report, WorkOn, WorkOnPlace } from "./report.ts";
import { placeInBar, type Target, type TargetNote } from "./target.ts";

/** What the place is looked for in. */
interface Shown {
  readonly report: Omit<Report, "workOn" | "workOnPlace">;
  readonly counted: readonly TargetNote[];
  /** Any significant trend taken out. */
  readonly strokes: readonly Stroke[];
  readonly target: Target;
}

/** How much of it one stroke shows; only places that show any are looked at. */
interface Weighed {
  readonly beat: number;
  readonly weight: number;
}

/** `null` when it shows nowhere in particular. */
export function workOnPlace(workOn: WorkOn, shown: Shown): WorkOnPlace | null {
  if (workOn.kind === "form") return { bar: workOn.slip.bar, beat: workOn.slip.beat };
  return heaviest(weighed(workOn, shown), shown.target);
}

function weighed(workOn: WorkOn, { report, counted, strokes, target }: Shown): readonly Weighed[] {
  const lean = report.leanMs ?? 0;
  const beatOf = new Map(counted.map(({ index, beat }) => [index, beat]));
  switch (workOn.kind) {
    case "nothing":
    case "no-match":
    case "form":
      return [];
    case "left-out": {
      const missed = report.missed.filter(({ voice, skipped }) => voice === workOn.voice && !skipped);
      return missed.flatMap(({ targetIndex }) => once(beatOf.get(targetIndex)));
    }
    case "other-sound":
      return strokes
        .filter(({ note, hit }) => note.voice === workOn.voice && hit.voice === workOn.heard)
        .flatMap(({ note }) => once(note.beat));
    case "added":
      return addedBeats(report, strokes, workOn.voice);
    case "beat-wanders":
    case "beat-leans": {
      const here = strokes.filter(
        ({ note }) =>
          note.voice === workOn.voice && Math.abs(placeInBar(target, note.beat) + 1 - workOn.beat) < 1e-3,
      );
      const centre = workOn.kind === "beat-leans" ? lean : meanOffset(here);
      return here.map(({ note, offsetMs }) => ({ beat: note.beat, weight: Math.abs(offsetMs - centre) }));
    }
    case "drift":
      return [];
    case "touch":
    case "accents": {
      const rows = report.dynamics.filter(({ voice }) => voice === workOn.voice);
      const isMeant = (written: string, heard: string) =>
        workOn.kind === "accents"
          ? written === "accent"
          : (workOn.touch === "ghosted") === (heard === "ghost") && written !== heard;
      return rows.flatMap(({ where }) =>
        where
          .filter(({ written, heard }) => isMeant(written, heard))
          .flatMap(({ targetIndex }) => once(beatOf.get(targetIndex))),
      );
    }
    case "unison":
      return unisonGaps(strokes, workOn);
    case "ornament":
      return report.ornaments.flatMap(({ each }) =>
        each
          .filter(({ ornament, place }) => ornament === workOn.ornament && place === workOn.was)
          .flatMap(({ targetIndex }) => once(beatOf.get(targetIndex))),
      );
    case "hi-hat":
      return (report.hiHat?.where ?? [])
        .filter(({ was }) => was === workOn.was)
        .flatMap(({ targetIndex }) => once(beatOf.get(targetIndex)));
  }
}

function once(beat: number | undefined): readonly Weighed[] {
  return beat === undefined ? [] : [{ beat, weight: 1 }];
}

function meanOffset(strokes: readonly Stroke[]): number {
  return strokes.reduce((sum, { offsetMs }) => sum + offsetMs, 0) / Math.max(1, strokes.length);
}

/** Added strokes have no place on the page: they are shown at the stroke last answered before them. */
function addedBeats(report: Shown["report"], strokes: readonly Stroke[], voice: string): readonly Weighed[] {
  const inTime = [...strokes].sort((a, b) => a.hit.time - b.hit.time);
  let at = 0;
  return report.hits.flatMap((judged) => {
    if (judged.state !== "extra" || judged.surplus || judged.hit.voice !== voice) return [];
    while ((inTime[at + 1]?.hit.time ?? Number.POSITIVE_INFINITY) <= judged.hit.time) at += 1;
    return once(inTime[at]?.note.beat);
  });
}

function unisonGaps(
  strokes: readonly Stroke[],
  { limb, against }: Extract<WorkOn, { readonly kind: "unison" }>,
): readonly Weighed[] {
  const together = grouped(strokes, ({ note }) => Math.round(note.beat * 200));
  return [...together.values()].flatMap((those) => {
    const one = those.find(({ note }) => limbOf(note.voice) === limb);
    const other = those.find(({ note }) => familyOf(note.voice) === against);
    return one && other ? [{ beat: one.note.beat, weight: Math.abs(one.offsetMs - other.offsetMs) }] : [];
  });
}

/** The heaviest bar, and in it the heaviest beat. */
function heaviest(those: readonly Weighed[], target: Target): WorkOnPlace | null {
  const bar = heaviestGroup(those, ({ beat }) => barOfTarget(target, beat));
  const beat = heaviestGroup(bar, ({ beat }) => Math.floor(beat + 1e-3));
  const [first] = beat;
  return first ? placeOnPage(target, first.beat) : null;
}

function heaviestGroup(those: readonly Weighed[], keyOf: (one: Weighed) => number): readonly Weighed[] {
  let most: readonly Weighed[] = [];
  for (const group of grouped(those, keyOf).values()) if (weightOf(group) > weightOf(most)) most = group;
  return most;
}

function weightOf(those: readonly Weighed[]): number {
  return those.reduce((sum, { weight }) => sum + weight, 0);
}
