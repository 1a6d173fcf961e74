/**
 * Question: which one thing would better this take most?
 *
 * Every remedy is weighed in the same coin: how many strokes it would put right. A left-out, added or moved
 * stroke is one, and so is every stroke that a slip of the form put out of place; a wrongly touched one, a flam too
 * tight or an accent that does not stand out is a third, since it is in its place and on its voice (our choice). A stroke out of time is one when it lies outside the student's band and would lie
 * inside if that beat stopped leaning or wandering, or the tempo held. When no stroke is outside the band the same
 * is asked with what can be heard as the band. Below that nothing is named.
 */
import type { Voice } from "../kit/index.ts";
import type { Level, Ornament } from "../score/index.ts";
import { beatSeconds, type Milliseconds, median } from "../units/index.ts";
import { bandMs, hearableMs, isSteady } from "./band.ts";
import { leanAndSpread } from "./figures.ts";
import { grouped } from "./grouped.ts";
import { limbOf } from "./limb.ts";
import type { Stroke } from "./matching.ts";
import type { Report, WorkOn } from "./report.ts";
import { placeInBar, type Target, type TargetNote } from "./target.ts";
import { HEARD_APART_MS } from "./unison.ts";

/** With fewer than this share of strokes matched, the take is something else. Our choice. */
const MATCHED_AT_LEAST = 0.25;
/** Fewer strokes at one place of the bar are no habit: they are named when outside the band, not when just heard. Our choice. */
const FEWEST_FOR_HABIT = 3;
/** Smaller drifts are never named: a third of the smallest tempo change heard (1.5 %, Drake & Botte 1993), since against a clock it adds up. */
export const SMALLEST_DRIFT_PERCENT = 0.5;

/** What a stroke of the wrong strength counts beside one that is wrong in time or sound. Our choice. */
const TOUCH_SHARE = 1 / 3;

interface Remedy {
  readonly workOn: WorkOn;
  /** Strokes it would put right. */
  readonly gain: number;
}

/** What the choice is made from. */
export interface Judged {
  readonly report: Omit<Report, "workOn" | "workOnPlace">;
  readonly target: Target;
  readonly level: Level;
  readonly counted: readonly TargetNote[];
  /** Matched strokes, any significant trend taken out. */
  readonly strokes: readonly Stroke[];
  /** How far the trend alone moves each of them from the lean. */
  readonly trendMs: readonly Milliseconds[];
}

/** The one thing to work on. Of remedies that put equally many strokes right, the one named first here. */
export function chooseWorkOn(judged: Judged): WorkOn {
  const { report, target, level, counted, strokes } = judged;
  const played = report.hits.filter(({ state }) => state === "matched" || state === "extra").length;
  if (strokes.length === 0 || strokes.length < MATCHED_AT_LEAST * Math.max(counted.length, played)) {
    return { kind: "no-match" };
  }
  const tempoBpm = report.tempoBpm ?? target.tempoBpm;
  const sounds = [...soundRemedies(report), ...figureRemedies(report, strokes)];
  const inBand = best([...sounds, ...timeRemedies(judged, () => bandMs(level, tempoBpm), 1)]);
  const heard = intervalsHeard(counted, tempoBpm, target);
  return (inBand ?? best(timeRemedies(judged, heard, FEWEST_FOR_HABIT)))?.workOn ?? { kind: "nothing" };
}

function best(remedies: readonly Remedy[]): Remedy | undefined {
  const found = remedies.filter(({ gain }) => gain > 0);
  return found.reduce<Remedy | undefined>(
    (most, remedy) => (most && most.gain >= remedy.gain ? most : remedy),
    undefined,
  );
}

function soundRemedies({ voices }: Pick<Report, "voices">): Remedy[] {
  return voices.flatMap(({ voice, written, leftOut, otherSound, added, touch }): Remedy[] => [
    { workOn: { kind: "left-out", voice, count: leftOut, written }, gain: leftOut },
    ...otherSound.map(
      ({ voice: heard, count }): Remedy => ({
        workOn: { kind: "other-sound", voice, heard, count },
        gain: count,
      }),
    ),
    { workOn: { kind: "added", voice, count: added }, gain: added },
    touchRemedy(voice, "ghosted", touch.ghosted),
    touchRemedy(voice, "heavy", touch.heavy),
  ]);
}

/** Flams and drags are rarer than plain strokes: two alike are a habit. Our choice. */
const FEWEST_ORNAMENTS = 2;

/** Slips of the form, flams, the hi-hat's pedal, accents. */
function figureRemedies(report: Judged["report"], strokes: readonly Stroke[]): Remedy[] {
  const asWritten = new Set(
    strokes.filter(({ note, hit }) => note.voice === hit.voice).map(({ note }) => note.index),
  );
  const byPedal = (report.hiHat?.where ?? []).filter(({ targetIndex }) => asWritten.has(targetIndex));
  const hiHats = (["open-as-closed", "closed-as-open"] as const).map((was): Remedy => {
    const count = byPedal.filter((place) => place.was === was).length;
    return { workOn: { kind: "hi-hat", was, count }, gain: count };
  });
  const ornaments = report.ornaments.flatMap(({ ornament, tooTight, tooOpen, noGrace }) => [
    ornamentRemedy(ornament, "too-tight", tooTight),
    ornamentRemedy(ornament, "too-open", tooOpen),
    ornamentRemedy(ornament, "no-grace", noGrace),
  ]);
  const accents = report.dynamics.map(({ voice, where }): Remedy => {
    const count = where.filter(({ written, heard }) => written === "accent" && heard === "plain").length;
    return {
      workOn: { kind: "accents", voice, count },
      gain: count < FEWEST_FOR_HABIT ? 0 : count * TOUCH_SHARE,
    };
  });
  const slips = report.form.slips.map(
    (slip): Remedy => ({ workOn: { kind: "form", slip }, gain: slip.strokes }),
  );
  return [...slips, ...hiHats, ...ornaments, ...accents];
}

function ornamentRemedy(
  ornament: Ornament,
  was: Extract<WorkOn, { readonly kind: "ornament" }>["was"],
  count: number,
): Remedy {
  const workOn = { kind: "ornament", ornament, was, count } as const;
  return { workOn, gain: count < FEWEST_ORNAMENTS ? 0 : count * TOUCH_SHARE };
}

/** A stroke or two of the wrong strength are no habit, and not worth a lesson. */
function touchRemedy(voice: Voice, touch: "ghosted" | "heavy", count: number): Remedy {
  return {
    workOn: { kind: "touch", voice, touch, count },
    gain: count < FEWEST_FOR_HABIT ? 0 : count * TOUCH_SHARE,
  };
}

/**
 * @param limitOf the band of a voice, in milliseconds.
 * @param fewest strokes at one place of the bar to speak of it.
 */
function timeRemedies(judged: Judged, limitOf: (voice: Voice) => Milliseconds, fewest: number): Remedy[] {
  const places = placeRemedies(judged, limitOf, fewest);
  return [driftRemedy(judged, limitOf), ...unisonRemedies(judged, limitOf), ...places];
}

/** Strokes of a limb that would lie in the band if the limb fell together with the one that keeps the time. */
function unisonRemedies({ report, strokes }: Judged, limitOf: (voice: Voice) => Milliseconds): Remedy[] {
  const lean = report.leanMs ?? 0;
  return report.unisons
    .filter(({ gapMs }) => Math.abs(gapMs) > HEARD_APART_MS)
    .map(({ limb, against, gapMs }): Remedy => {
      const gain = strokes.filter(({ note, offsetMs }) => {
        const limit = limitOf(note.voice);
        const off = offsetMs - lean;
        return limbOf(note.voice) === limb && Math.abs(off) > limit && Math.abs(off - gapMs) <= limit;
      }).length;
      return { workOn: { kind: "unison", limb, against, gapMs }, gain };
    });
}

/** Strokes the trend alone carries out of the band. */
function driftRemedy({ report, strokes, trendMs }: Judged, limitOf: (voice: Voice) => Milliseconds): Remedy {
  const percent = report.driftPercent ?? 0;
  const lean = report.leanMs ?? 0;
  const gain = strokes.filter(({ note, offsetMs }, at) => {
    const limit = limitOf(note.voice);
    return Math.abs(offsetMs - lean) <= limit && Math.abs(offsetMs - lean + (trendMs[at] ?? 0)) > limit;
  }).length;
  return { workOn: { kind: "drift", percent }, gain: Math.abs(percent) < SMALLEST_DRIFT_PERCENT ? 0 : gain };
}

/** Lean and wander at each place of the bar that a voice keeps returning to. */
function placeRemedies(judged: Judged, limitOf: (voice: Voice) => Milliseconds, fewest: number): Remedy[] {
  const { report, target, strokes, counted } = judged;
  const heard = intervalsHeard(counted, report.tempoBpm ?? target.tempoBpm, target);
  const overall = report.leanMs ?? 0;
  const places = grouped(strokes, ({ note }) => `${note.voice} ${placeInBar(target, note.beat)}`);
  return [...places.values()].flatMap((those): Remedy[] => {
    const note = those[0]?.note;
    const { leanMs, spreadMs } = leanAndSpread(those.map(({ offsetMs }) => offsetMs));
    if (!note || leanMs === null || those.length < fewest) return [];
    const { voice } = note;
    const beat = placeInBar(target, note.beat) + 1;
    const limit = limitOf(voice);
    const outside = those.filter(({ offsetMs }) => Math.abs(offsetMs - overall) > limit).length;
    const outsideOwnLean = those.filter(({ offsetMs }) => Math.abs(offsetMs - leanMs) > limit).length;
    const leanHeard = Math.abs(leanMs - overall) > heard(voice);
    const leans: Remedy = {
      workOn: { kind: "beat-leans", voice, beat, leanMs: leanMs - overall },
      gain: leanHeard ? outside - outsideOwnLean : 0,
    };
    if (spreadMs === null || spreadMs <= heard(voice) || isSteady(spreadMs, limit)) return [leans];
    return [leans, { workOn: { kind: "beat-wanders", voice, beat, spreadMs }, gain: outsideOwnLean }];
  });
}

/** For each voice what can be heard at its own usual interval, at most a beat. */
function intervalsHeard(
  counted: readonly TargetNote[],
  tempoBpm: number,
  target: Target,
): (voice: Voice) => Milliseconds {
  const beatMs = beatSeconds(tempoBpm) * 1000;
  const stretch = target.tempoBpm / tempoBpm;
  const limits = new Map<Voice, Milliseconds>();
  for (const [voice, notes] of grouped(counted, ({ voice }) => voice)) {
    const gaps = notes.slice(1).map(({ time }, at) => (time - (notes[at]?.time ?? time)) * 1000 * stretch);
    limits.set(voice, hearableMs(gaps.length === 0 ? beatMs : Math.min(median(gaps), beatMs)));
  }
  return (voice) => limits.get(voice) ?? hearableMs(beatMs);
}
