/** From a judged take to what is stored of it. */
import { styleById } from "../catalogue/index.ts";
import { type Report, sharesClock, workOnWords } from "../grading/index.ts";
import type { Judgement } from "../rounds/index.ts";
import { printGrid } from "../score/index.ts";
import { instantAfter } from "./calendar.ts";
import type { LessonState, TakeState } from "./lessonState.ts";
import type { RoundKind } from "./roundKind.ts";
import type { TakeSummary } from "./takeSummary.ts";

/** What an event of kind `judgement` holds besides its place in the log. */
export interface Summarised {
  readonly summary: TakeSummary;
  readonly comparedGrid: string | null;
}

/**
 * What is stored of a take that has been judged.
 *
 * @param take of a lesson that has begun, in `state`.
 * @throws RangeError when the lesson has not begun.
 */
export function summarised(
  judgement: Judgement,
  take: TakeState,
  round: RoundKind,
  { began }: Pick<LessonState, "began">,
): Summarised {
  if (!began) throw new RangeError("A take belongs to a lesson: begin one before it is judged.");
  const { hearing, compared } = judgement;
  const report = compared?.report;
  const best = hearing.kind === "heard" && hearing.known ? hearing.candidates[0] : undefined;
  const summary: TakeSummary = {
    takeId: take.takeId,
    lessonId: began.lessonId,
    roundId: take.roundId,
    studentId: take.studentId,
    at: instantAfter(began.at, take.from),
    round,
    fromSeconds: take.from,
    seconds: Math.max(0, (take.to ?? take.from) - take.from),
    hitCount: judgement.hitCount,
    called: take.called,
    groove: compared
      ? {
          id: take.called?.id ?? best?.id ?? compared.groove.id,
          name: take.called?.name ?? best?.name ?? compared.groove.name,
        }
      : null,
    heard: best
      ? { id: best.id, name: best.name, confidence: Math.min(1, Math.max(0, best.confidence)) }
      : null,
    level: report?.band.level ?? null,
    clicked: judgement.click !== null,
    tempoBpm: report?.tempoBpm ?? (hearing.kind === "heard" ? hearing.pulse.tempoBpm : null),
    ...figuresOf(report),
  };
  return { summary, comparedGrid: compared ? printGrid(compared.groove) : null };
}

type Figures = Pick<
  TakeSummary,
  "leanMs" | "spreadMs" | "driftPercent" | "swingRatio" | "voiceAccuracy" | "workOn" | "beats" | "voices"
>;

const NOTHING: Figures = {
  leanMs: null,
  spreadMs: null,
  driftPercent: null,
  swingRatio: null,
  voiceAccuracy: null,
  workOn: null,
  beats: [],
  voices: [],
};

function figuresOf(report: Report | undefined): Figures {
  if (!report) return NOTHING;
  return {
    // A take that came in freely is laid on its own pulse: its lean is nought by construction, and says nothing.
    leanMs: sharesClock(report) ? report.leanMs : null,
    spreadMs: report.spreadMs,
    driftPercent: report.driftPercent,
    swingRatio: report.swingRatio,
    voiceAccuracy: report.voiceAccuracy,
    workOn: { kind: report.workOn.kind, words: workOnWords(report.workOn, report.band.halfBandMs) },
    beats: report.perBeat.map(({ beat, count, leanMs, spreadMs }) => ({ beat, count, leanMs, spreadMs })),
    voices: report.voices.map(
      ({ voice, written, asWritten, otherSound, leftOut, added, leanMs, spreadMs }) => ({
        voice,
        written,
        asWritten,
        otherSound: otherSound.reduce((sum, { count }) => sum + count, 0),
        leftOut,
        added,
        leanMs,
        spreadMs,
      }),
    ),
  };
}

/** The name of a style of the catalogue, or of the groove of the Shelf that was called; `null` for a free choice. */
export function calledGroove(
  styleId: string | null,
  shelfGroove?: { readonly id: string; readonly name: string },
): TakeSummary["called"] {
  if (shelfGroove) return { id: shelfGroove.id, name: shelfGroove.name };
  if (styleId === null) return null;
  return { id: styleId, name: styleById(styleId)?.name ?? styleId };
}
