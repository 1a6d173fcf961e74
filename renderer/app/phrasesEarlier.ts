/** Where a student left off in Say & Strike: in an earlier lesson, or in an earlier round of the one that is on. */
import { daysBetween } from "../../engine/memory/index.ts";
import { playOf, rungResultsOf } from "../../engine/rounds/index.ts";
import { type LessonState, localDay } from "../../engine/session/index.ts";
import { type LeftOff, nextRung, type RungResult } from "../../engine/speech/index.ts";
import type { StudioDatabase } from "../store/index.ts";
import { earlierRounds } from "./earlierRounds.ts";

/** What became of the phrases of the latest lesson that had any. */
export interface PhrasesBefore {
  /** The day of that lesson: `2026-03-02`. */
  readonly day: string;
  /** At least one. */
  readonly results: readonly RungResult[];
}

/**
 * Of the latest lesson in which the student answered phrases of the program; `null` where there was none.
 *
 * @param butOf a lesson that is on.
 * @throws StoreError
 */
export async function phrasesBefore(
  database: StudioDatabase,
  studentId: string,
  butOf?: string,
): Promise<PhrasesBefore | null> {
  const rounds = await earlierRounds(database, studentId, {
    kind: "say-and-strike",
    item: "syllable",
    butOf,
  });
  const answered = rounds.map(({ lessonId, day, play }) => ({
    lessonId,
    day,
    results: rungResultsOf(play.own, studentId),
  }));
  const latest = answered.findLast(({ results }) => results.length > 0);
  if (!latest) return null;
  const ofIt = answered.filter(({ lessonId }) => lessonId === latest.lessonId);
  return { day: latest.day, results: ofIt.flatMap(({ results }) => results) };
}

/**
 * Where a student left off.
 *
 * @param earlier of earlier lessons.
 * @param lesson the one that is on: its rounds that are over count first.
 */
export function leftOff(
  studentId: string,
  earlier: PhrasesBefore | null,
  { began, rounds }: Pick<LessonState, "began" | "rounds">,
): LeftOff | null {
  const today = rounds.flatMap(({ round, to, steps }) =>
    round === "say-and-strike" && to !== null
      ? rungResultsOf(
          playOf(
            "say-and-strike",
            steps.map(({ step }) => step),
          ).own,
          studentId,
        )
      : [],
  );
  if (today.length > 0) return { rung: rungAfter(today), daysAgo: 0 };
  if (!earlier || !began) return null;
  return {
    rung: rungAfter(earlier.results),
    // Computers' clocks have been known to go back.
    daysAgo: Math.max(0, daysBetween(earlier.day, localDay(began.at, began.zone))),
  };
}

/** Where there are results no level is asked for. */
function rungAfter(results: readonly RungResult[]): number {
  return nextRung(results, "first-year");
}
