/**
 * Question: what results does a lesson give? Those its rounds wrote down, and those its takes show of the skills.
 */
import type { Level } from "../score/index.ts";
import { type ItemResult, type LessonState, localDay } from "../session/index.ts";
import type { Day } from "./day.ts";
import type { Result } from "./result.ts";
import { skillResults } from "./takeResults.ts";

/** A result as a round wrote it down, on the day it counts for. */
export function resultOn(day: Day, { item, outcome, studentId, at, evidence }: ItemResult): Result {
  return { item, outcome, studentId, at, day, evidence };
}

/**
 * All results of a lesson, of all its students; none before it has begun. The whole lesson counts for the day it began.
 *
 * @param levelOf the student's level now, for takes that did not keep that of then.
 */
export function resultsOfLesson(
  { began, rounds }: Pick<LessonState, "began" | "rounds">,
  levelOf: (studentId: string) => Level,
): readonly Result[] {
  if (!began) return [];
  const day = localDay(began.at, began.zone);
  return rounds.flatMap(({ tally, takes }) => [
    ...tally.map((each) => resultOn(day, each)),
    ...takes.flatMap(({ judgement }) => {
      const summary = judgement?.summary;
      if (!summary || summary.studentId === null) return [];
      return skillResults(summary, { level: levelOf(summary.studentId), day });
    }),
  ]);
}
