/**
 * A take against what is written, heard one hit at a time.
 */
import type { Hit } from "../kit/index.ts";
import type { Level } from "../score/index.ts";
import { type Bpm, beatSeconds, type Seconds } from "../units/index.ts";
import { bandFigures } from "./band.ts";
import { dynamicsFigures } from "./dynamics.ts";
import { barFigures, beatFigures, flamFigures, leanAndSpread } from "./figures.ts";
import { formFigures } from "./form.ts";
import { hiHatFigures } from "./hiHat.ts";
import { type FormPiece, inPieces } from "./inPieces.ts";
import { type Matched, Matching, SHARED_START, type StartPoint, type Stroke } from "./matching.ts";
import { ornamentFigures } from "./ornamentGaps.ts";
import type { MissedNote, Report } from "./report.ts";
import { findStart, matchedFrom } from "./start.ts";
import { swingByLimb, swingRatio } from "./swing.ts";
import type { Target, TargetNote } from "./target.ts";
import { bendTrend, lineTrend, type Trend, takeLine } from "./trend.ts";
import { unisonFigures } from "./unison.ts";
import { voiceFigures } from "./voices.ts";
import { wanderOf } from "./wander.ts";
import { chooseWorkOn } from "./workOn.ts";
import { workOnPlace } from "./workOnPlace.ts";

export interface GradeOptions {
  /**
   * `shared`: hits and target count seconds from the same moment, as with a click. Every written stroke counts.
   * `free`: the player came in anywhere in the target, at a tempo within 8 % of it. Start and tempo are found,
   * and only what lies between the first and the last hit counts. A free start cannot tell a constant lean from a
   * later start: it absorbs it. The lean of the whole take is then 0 by construction, while beats and voices still
   * lean against one another.
   */
  readonly start: "shared" | "free";
  /** The student's level, for the one thing to work on; `steady` unless said. */
  readonly level?: Level;
}

/** The first line corrects the grid of tempos, the second what was paired wrongly for it; a third changes nothing. */
const REFINEMENTS = 2;
/** Fewer matched strokes do not make a tempo. */
const FEWEST_FOR_TEMPO = 4;

/**
 * The report of a whole take.
 *
 * @param hits in order of time, in seconds on the session clock (with a shared start: from the target's time 0).
 * @example
 * gradeTake(hits, grooveTarget(groove, { tempoBpm: 100, bars: 4 }), { start: "shared" }).leanMs // => 4.2
 */
export function gradeTake(hits: readonly Hit[], target: Target, options: GradeOptions): Report {
  const grader = new Grader(target, options);
  for (const hit of hits) grader.hear(hit);
  return grader.report();
}

/**
 * Grades while the take is being played. The cost of {@link hear} does not depend on how much was heard before;
 * {@link report} is linear in the take, for the end of it or for a look now and then. With a free start the
 * whole take is needed to place it, so hits are kept and everything is done in `report`.
 *
 * @example
 * const grader = new Grader(target, { start: "shared" });
 * grader.hear(hit);
 * grader.report().hits[0]?.state // => "matched"
 */
export class Grader {
  readonly #target: Target;
  readonly #options: GradeOptions;
  readonly #hits: Hit[] = [];
  readonly #shared: Matching | undefined;

  constructor(target: Target, options: GradeOptions) {
    this.#target = target;
    this.#options = options;
    this.#shared = options.start === "shared" ? new Matching(target.notes, SHARED_START) : undefined;
  }

  /** Hears the next hit, in order of time. */
  hear(hit: Hit): void {
    if (this.#shared) this.#shared.hear(hit);
    else this.#hits.push(hit);
  }

  /**
   * Everything that can be said so far.
   *
   * @param until with a shared start and a take still running: written strokes later than this moment (seconds)
   * are not yet left out. Without it every written stroke counts.
   */
  report(until: Seconds = Number.POSITIVE_INFINITY): Report {
    const level = this.#options.level ?? "steady";
    if (this.#shared) {
      const whole = inPieces(this.#shared.matched(), this.#target, SHARED_START, false);
      const isDue = ({ time }: TargetNote) => time <= until;
      const { unanswered, skipped } = whole.matched;
      const matched = {
        ...whole.matched,
        unanswered: unanswered.filter(isDue),
        skipped: skipped.filter(isDue),
      };
      const trend = lineTrend(matched.strokes);
      // Where the drift cannot be told, neither can the tempo.
      const tempoBpm = trend.driftPercent === null ? null : this.#target.tempoBpm / (1 + trend.slope);
      return reported(
        { matched, pieces: whole.pieces, start: SHARED_START, trend, tempoBpm },
        this.#target,
        level,
      );
    }
    const { matched, pieces, start } = placed(this.#hits, this.#target);
    const tempoBpm = matched.strokes.length < FEWEST_FOR_TEMPO ? null : this.#target.tempoBpm / start.stretch;
    const trend = bendTrend(matched.strokes);
    return reported({ matched, pieces, start, trend, tempoBpm }, this.#target, level);
  }
}

/** A take with its place against the target. */
interface Placed {
  readonly matched: Matched;
  readonly pieces: readonly FormPiece[];
  readonly start: StartPoint;
  readonly trend: Trend;
  readonly tempoBpm: Bpm | null;
}

/** Finds the start of a free take and aligns it, then twice sets start and tempo by a line through the strokes. */
function placed(hits: readonly Hit[], target: Target): Pick<Placed, "matched" | "pieces" | "start"> {
  const opening = findStart(hits, target);
  let start = opening;
  let whole = inPieces(matchedFrom(hits, target, start), target, start, true);
  for (let round = 0; round < REFINEMENTS; round += 1) {
    start = startThrough(whole.matched.strokes, start);
    whole = inPieces(matchedFrom(hits, target, start, opening), target, start, true);
  }
  return { ...whole, start };
}

function startThrough(strokes: readonly Stroke[], from: StartPoint): StartPoint {
  if (strokes.length < FEWEST_FOR_TEMPO) return from;
  // Of the offsets, not of the moments: in a chunk of neighbours the moments differ, and none is a mistake.
  const line = takeLine(
    strokes.map(({ note }) => note.time),
    strokes.map(({ offsetMs }) => offsetMs / 1000),
  );
  return { time: from.time + line.at0, stretch: from.stretch + line.slope };
}

function reported({ matched, pieces, start, trend, tempoBpm }: Placed, target: Target, level: Level): Report {
  const counted = [...matched.strokes.map(({ note }) => note), ...matched.unanswered].sort(
    (a, b) => a.index - b.index,
  );
  const { strokes } = matched;
  const { leanMs } = leanAndSpread(strokes.map(({ offsetMs }) => offsetMs));
  const trendMs = strokes.map(({ note }) => trend.offsetMsAt(note.time));
  const steadied = strokes.map((stroke, at) => ({
    ...stroke,
    offsetMs: stroke.offsetMs - (trendMs[at] ?? 0),
  }));
  const playedBpm = tempoBpm ?? target.tempoBpm;
  const secondsPerBeat = beatSeconds(playedBpm);
  const band = bandFigures(level, playedBpm);
  const shared = start === SHARED_START;
  const { spreadMs } = leanAndSpread(steadied.map(({ offsetMs }) => offsetMs));
  const form = { target, counted, strokes: steadied, start, shared, spreadMs, halfBandMs: band.halfBandMs };
  const report = {
    targetName: target.name,
    hits: matched.hits,
    missed: missedNotes(matched),
    leanMs,
    spreadMs,
    tempoBpm,
    driftPercent: trend.driftPercent,
    swingRatio: swingRatio(strokes, target, tempoBpm),
    perBeat: beatFigures(steadied, target),
    perBar: barFigures(strokes, counted, target),
    voices: voiceFigures({ ...matched, strokes: steadied }, counted),
    voiceAccuracy: voiceAccuracy(strokes),
    flams: flamFigures(matched, counted),
    start,
    wander: wanderOf(steadied, target, { secondsPerBeat, clicked: shared }),
    swingByLimb: swingByLimb(strokes, target, tempoBpm),
    unisons: unisonFigures(steadied),
    ornaments: ornamentFigures(matched, target),
    hiHat: hiHatFigures(matched, counted, target),
    dynamics: dynamicsFigures(matched, counted, target),
    form: formFigures(form, { matched, pieces }),
    band,
  };
  const workOn = chooseWorkOn({ report, target, level, counted, strokes: steadied, trendMs });
  return {
    ...report,
    workOn,
    workOnPlace: workOnPlace(workOn, { report, counted, strokes: steadied, target }),
  };
}

function missedNotes({ unanswered, skipped }: Matched): readonly MissedNote[] {
  return [
    ...unanswered.map(({ index, time, voice }): MissedNote => ({ targetIndex: index, time, voice })),
    ...skipped.map(
      ({ index, time, voice }): MissedNote => ({ targetIndex: index, time, voice, skipped: true }),
    ),
  ].sort((a, b) => a.targetIndex - b.targetIndex);
}

function voiceAccuracy(strokes: readonly Stroke[]): number | null {
  if (strokes.length === 0) return null;
  return strokes.filter(({ note, hit }) => note.voice === hit.voice).length / strokes.length;
}
