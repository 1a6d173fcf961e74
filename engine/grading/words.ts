/**
 * The report in a teacher's words: no marks, no shame, what happened and what to do about it.
 */
import { type Voice, voiceName } from "../kit/index.ts";
import type { Level } from "../score/index.ts";
import { beatSeconds, type Milliseconds } from "../units/index.ts";
import { bandMs, hearableMs, isSteady, placeOf } from "./band.ts";
import { figureWorkWords } from "./figureWords.ts";
import { capital, milliseconds, numberWord, onBeat, the, times } from "./phrases.ts";
import type { Report, TouchFigures, VoiceFigures, WorkOn } from "./report.ts";
import { isWithinSetUp } from "./setUpWords.ts";
import { SMALLEST_DRIFT_PERCENT } from "./workOn.ts";

/** A lean of more than this many audible steps is no longer "a little". Our choice. */
const A_LITTLE = 2;

/** Whether take and target shared a clock from the beginning: only then is there something to lean against. */
export function sharesClock({ start }: Pick<Report, "start">): boolean {
  return start.time === 0 && start.stretch === 1;
}

/**
 * Lean and spread of the whole take in one sentence. A take that came in freely is laid on its own pulse, so its lean
 * is nought by construction, and to call that "in the pocket" would be praise for nothing: of it only the spread is told.
 * A lean that the set-up's own delay may make is no feel.
 *
 * @param setUpGiveOrTakeMs how well that delay is known (±); nought where no set-up is in question.
 * @example
 * leanWords(report) // => "A little behind as a whole, steadily: that is feel."
 */
export function leanWords(
  report: Pick<Report, "leanMs" | "spreadMs" | "tempoBpm"> & Partial<Pick<Report, "driftPercent" | "start">>,
  level: Level = "steady",
  setUpGiveOrTakeMs: Milliseconds = 0,
): string {
  const { leanMs, spreadMs, tempoBpm, driftPercent = null, start } = report;
  if (leanMs === null) return "Nothing to measure yet: no stroke met the page.";
  const beatMs = beatSeconds(tempoBpm ?? 120) * 1000;
  const limitMs = hearableMs(beatMs);
  const place = placeOf(leanMs, limitMs);
  const steady = spreadMs === null || isSteady(spreadMs, bandMs(level, tempoBpm ?? 120));
  if (start && !sharesClock({ start })) {
    return steady ? "Steady against its own pulse." : "Not yet steady against its own pulse.";
  }
  if (place === "in the pocket") {
    return steady
      ? "In the pocket as a whole, steadily."
      : "In the pocket as a whole; the single strokes still wander.";
  }
  // Against a clock that was left behind, the mean of the whole take is no feel.
  if (driftPercent !== null && Math.abs(driftPercent) >= SMALLEST_DRIFT_PERCENT) {
    return steady
      ? "Steady, around a tempo that moved."
      : "The tempo moved, and the strokes wander around it.";
  }
  if (isWithinSetUp(leanMs, setUpGiveOrTakeMs)) {
    return steady
      ? "With the click as a whole, as far as this set-up can tell; steadily."
      : "With the click as a whole, as far as this set-up can tell; the single strokes still wander.";
  }
  const degree = Math.abs(leanMs) <= limitMs * A_LITTLE ? `A little ${place}` : capital(place);
  return steady
    ? `${degree} as a whole, steadily: that is feel.`
    : `${degree} as a whole, and not yet steadily.`;
}

/**
 * Whether the tempo held.
 *
 * @example
 * driftWords({ driftPercent: 1.1 }) // => "Gained 1 in 100 over the take."
 */
export function driftWords({ driftPercent }: Pick<Report, "driftPercent">): string {
  if (driftPercent === null) return "Too short a take to say whether the tempo held.";
  const size = Math.abs(driftPercent);
  if (size < SMALLEST_DRIFT_PERCENT) return "The tempo held.";
  const inHundred = Math.round(size) <= 1 ? (size < 0.75 ? "less than 1" : "1") : String(Math.round(size));
  return `${driftPercent > 0 ? "Gained" : "Lost"} ${inHundred} in 100 over the take.`;
}

/** A place that leans by no more than this share of the band keeps most of its strokes inside it. Our choice. */
const FINE_LEAN_SHARE = 0.5;

/**
 * Whether what is named can be heard and still lies within the band: nothing is wrong, this is polish.
 *
 * @param halfBandMs the student's band.
 * @example
 * isFineWork({ kind: "beat-wanders", voice: "snare", beat: 4, spreadMs: 12 }, 30) // => true
 */
export function isFineWork(workOn: WorkOn, halfBandMs: Milliseconds): boolean {
  if (workOn.kind === "beat-wanders") return isSteady(workOn.spreadMs, halfBandMs);
  return workOn.kind === "beat-leans" && Math.abs(workOn.leanMs) <= FINE_LEAN_SHARE * halfBandMs;
}

/**
 * The one thing to work on, as the teacher would say it.
 *
 * @param halfBandMs the student's band; of a steady player at an easy tempo when not said.
 * @example
 * workOnWords({ kind: "beat-wanders", voice: "snare", beat: 4, spreadMs: 31 }) // => "The snare on four wanders. Work on that one."
 */
export function workOnWords(workOn: WorkOn, halfBandMs: Milliseconds = bandMs("steady", 100)): string {
  const isFine = isFineWork(workOn, halfBandMs);
  switch (workOn.kind) {
    case "nothing":
      return "Nothing stands out: what differs is too small to hear. Enjoy it.";
    case "no-match":
      return "This was something else than what is written. Listen once more, then play it slowly.";
    case "left-out":
      return workOn.count >= workOn.written
        ? `${the(workOn.voice)} is still to come in. Add it, slowly.`
        : `${the(workOn.voice)} was left out ${times(workOn.count)}. Count it in.`;
    case "other-sound":
      return `${the(workOn.heard)} answered where the ${voiceName(workOn.voice)} is written, ${times(workOn.count)}. The rhythm holds; move the sound.`;
    case "added":
      return `${the(workOn.voice)} had ${workOn.count === 1 ? "a stroke" : `${numberWord(workOn.count)} strokes`} more than written. Leave room.`;
    case "beat-wanders":
      return isFine
        ? `What is left is fine work: the ${voiceName(workOn.voice)} ${onBeat(workOn.beat)} could sit more evenly.`
        : `${the(workOn.voice)} ${onBeat(workOn.beat)} wanders. Work on that one.`;
    case "beat-leans":
      if (isFine) return fineLeanWords(workOn.voice, workOn.beat, workOn.leanMs);
      return workOn.leanMs < 0
        ? `${the(workOn.voice)} ${onBeat(workOn.beat)} comes early, by ${milliseconds(workOn.leanMs)}. Let it settle.`
        : `${the(workOn.voice)} ${onBeat(workOn.beat)} comes late, by ${milliseconds(workOn.leanMs)}. Bring it forward.`;
    case "drift":
      return workOn.percent > 0
        ? `${driftWords({ driftPercent: workOn.percent })} Breathe, and let the time come to you.`
        : `${driftWords({ driftPercent: workOn.percent })} Keep the hands moving and count aloud.`;
    case "touch":
      return workOn.touch === "ghosted"
        ? `${the(workOn.voice)} was softer than written ${times(workOn.count)}. Let it speak.`
        : `${the(workOn.voice)} was louder than written ${times(workOn.count)}. Keep the stick low.`;
    case "form":
    case "unison":
    case "ornament":
    case "hi-hat":
    case "accents":
      return figureWorkWords(workOn);
  }
}

/**
 * The place of a stroke, with its milliseconds.
 *
 * @param limitMs differences up to this much are in the pocket.
 * @example
 * placeWords(14, 12.5) // => "behind, 14 ms"
 */
export function placeWords(offsetMs: Milliseconds, limitMs: Milliseconds): string {
  const place = placeOf(offsetMs, limitMs);
  return place === "in the pocket" ? place : `${place}, ${milliseconds(offsetMs)}`;
}

/**
 * One row of the voice table: what happened to this voice's strokes, only what did happen.
 *
 * @example
 * voiceWords(figures) // => "6 as written, 1 other sound (mid tom), 1 left out"
 */
export function voiceWords({ asWritten, otherSound, leftOut, added }: VoiceFigures): string {
  const moved = otherSound.map(({ voice, count }): Counted => [count, `other sound (${voiceName(voice)})`]);
  const counts = told([[asWritten, "as written"], ...moved, [leftOut, "left out"], [added, "added"]]);
  return counts.length === 0 ? "not played" : counts.join(", ");
}

/**
 * Touch of one voice.
 *
 * @example
 * touchWords({ asWritten: 7, ghosted: 1, heavy: 0 }) // => "7 as written, 1 ghosted"
 */
export function touchWords({ asWritten, ghosted, heavy }: TouchFigures): string {
  const counts = told([
    [asWritten, "as written"],
    [ghosted, "ghosted"],
    [heavy, "heavy"],
  ]);
  return counts.length === 0 ? "not told" : counts.join(", ");
}

type Counted = readonly [count: number, what: string];

function told(counts: readonly Counted[]): readonly string[] {
  return counts.filter(([count]) => count > 0).map(([count, what]) => `${count} ${what}`);
}

function fineLeanWords(voice: Voice, beat: number, leanMs: Milliseconds): string {
  const where = leanMs < 0 ? "ahead of" : "behind";
  return `What is left is fine work: the ${voiceName(voice)} ${onBeat(beat)} lies ${milliseconds(leanMs)} ${where} the rest, which may be feel.`;
}
