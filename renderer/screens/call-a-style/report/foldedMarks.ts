/** All strokes of a take laid over one another on the bar ring, each at its true place. */
import type { JudgedHit, Report } from "../../../../engine/grading/index.ts";
import type { Hit, Voice } from "../../../../engine/kit/index.ts";
import type { Pulse } from "../../../../engine/listening/index.ts";
import { beatsPerBar, type Groove, grooveBeats } from "../../../../engine/score/index.ts";
import type { Milliseconds, Seconds } from "../../../../engine/units/index.ts";
import { type PlayedMark, ringSpan } from "../../../charts/index.ts";
import { targetTempo } from "../../../notation/targetTempo.ts";
import { driftAlong } from "./driftAlong.ts";

/**
 * The marks of a graded take. A stroke differs when it left the band round the take's own lean, sounded on
 * another voice, or answers nothing written. Grace strokes and double triggers are not drawn: the written
 * circle of a flam is its main stroke, and a double trigger was never struck. The drift is left out: see `driftAlong`.
 * Empty when nothing matched: the take then has no place on the groove.
 */
export function foldedMarks(report: Report, groove: Groove, bandMs: Milliseconds): readonly PlayedMark[] {
  return strokesFolded(report, groove, bandMs).map(({ mark }) => mark);
}

/** The same, each with the stroke it is of: for whoever shows only some of them. */
export function strokesFolded(
  report: Report,
  groove: Groove,
  bandMs: Milliseconds,
): readonly { readonly hit: Hit; readonly mark: PlayedMark }[] {
  const tempoBpm = targetTempo(report.hits, groove);
  if (tempoBpm === undefined) return [];
  const driftMs = driftAlong(report, groove);
  return report.hits.flatMap((judged) => {
    const placed = placedStroke(judged, report, bandMs, driftMs);
    const place = placed && placeOnRing((placed.time * tempoBpm) / 60, groove);
    if (!placed || place === undefined) return [];
    return [{ hit: judged.hit, mark: { voice: placed.voice, place, differs: placed.differs } }];
  });
}

/** More single ticks than this hide the means they stand beside. Our choice. */
export const MOST_STRAYS = 60;

/**
 * The strokes that are drawn one by one where the means are drawn: those that differ. Of a long take, in which many
 * leave the band by chance, only added strokes and other sounds: how far the rest spread is what the means tell.
 */
export function strayMarks(report: Report, groove: Groove, bandMs: Milliseconds): readonly PlayedMark[] {
  const strays = foldedMarks(report, groove, bandMs).filter(({ differs }) => differs);
  if (strays.length <= MOST_STRAYS) return strays;
  return foldedMarks(report, groove, Number.POSITIVE_INFINITY).filter(({ differs }) => differs);
}

/** A stroke that is to be drawn, on the target's own clock. */
interface PlacedStroke {
  readonly time: Seconds;
  readonly voice: Voice;
  readonly differs: boolean;
}

function placedStroke(
  judged: JudgedHit,
  report: Report,
  bandMs: Milliseconds,
  driftMs: (time: Seconds) => Milliseconds,
): PlacedStroke | undefined {
  switch (judged.state) {
    case "matched": {
      const offsetMs = judged.offsetMs - driftMs(judged.targetTime);
      const outside = Math.abs(offsetMs - (report.leanMs ?? 0)) > bandMs;
      const otherSound = judged.hit.voice !== judged.targetVoice;
      // Another sound is shown on the ring it was written for: there its absence would be looked for.
      return {
        time: judged.targetTime + offsetMs / 1000,
        voice: judged.targetVoice,
        differs: outside || otherSound,
      };
    }
    case "extra": {
      // A bar played twice is a slip of the form, told as one and not stroke by stroke.
      if (judged.surplus) return undefined;
      const { time, stretch } = report.start;
      const onTarget = (judged.hit.time - time) / stretch;
      return { time: onTarget - driftMs(onTarget) / 1000, voice: judged.hit.voice, differs: true };
    }
    case "grace":
    case "retrigger":
      return undefined;
  }
}

/** The place on the ring; undefined for strokes of the bars that a ring of the first bar does not show. */
function placeOnRing(beat: number, groove: Groove): number | undefined {
  const { beats } = ringSpan(groove);
  const whole = grooveBeats(groove);
  const early = EARLY * beats;
  const inGroove = beat - Math.floor((beat + early) / whole) * whole;
  return inGroove < beats - early ? inGroove / beats : undefined;
}

/** A stroke up to this share of the ring before its end is an early one of the next round. Our choice. */
const EARLY = 1 / 32;

/** The marks of free playing that no known groove fits: laid over one another by the bars that were heard. */
export function marksByPulse(hits: readonly Hit[], pulse: Pulse): readonly PlayedMark[] {
  const firstDownbeat = pulse.beats.indexOf(pulse.downbeats[0] ?? Number.NaN);
  if (firstDownbeat < 0 || pulse.beats.length < 2) return [];
  const inBar = beatsPerBar(pulse.metre);
  return hits.map(({ time, voice }) => ({
    voice,
    place: (beatIndex(pulse.beats, time) - firstDownbeat) / inBar,
    differs: false,
  }));
}

/** Where a moment lies among the beats, in beats from the first; beyond either end by the nearest beat's length. */
function beatIndex(beats: readonly Seconds[], time: Seconds): number {
  const next = beats.findIndex((beat) => beat > time);
  const upper = Math.max(1, next < 0 ? beats.length - 1 : next);
  const from = beats[upper - 1] ?? 0;
  const to = beats[upper] ?? from + 1;
  return upper - 1 + (time - from) / (to - from);
}
