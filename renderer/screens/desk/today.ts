/** Question: who comes today, who is next, and who after today? */
import type { LessonDay, LessonRecord, Student } from "../../../engine/records/index.ts";
import { minutesOfTime } from "../roster/lessonTimes.ts";

/** A lesson of today's calendar. */
export interface DeskLine {
  readonly student: Student;
  readonly lessonDay: LessonDay;
  /** Today's lesson, where it has been held or is on. */
  readonly held: LessonRecord | null;
}

export interface ComingLater {
  readonly student: Student;
  readonly lessonDay: LessonDay;
  /** From today: 1 is tomorrow. */
  readonly daysAhead: number;
}

/** The lessons of a weekday, in order of time; archived students have none. */
export function linesOfDay(
  students: readonly Student[],
  lessons: readonly LessonRecord[],
  weekday: number,
): readonly DeskLine[] {
  return students
    .flatMap((student) => {
      const { lessonDay } = student;
      if (student.archived || lessonDay?.weekday !== weekday) return [];
      const held = lessons.findLast(({ studentIds }) => studentIds.includes(student.id)) ?? null;
      return [{ student, lessonDay, held }];
    })
    .sort((a, b) => minutesOfTime(a.lessonDay.from) - minutesOfTime(b.lessonDay.from));
}

/**
 * Who is next: the first whose lesson is not held and not over by the clock; else the first that was not held at all.
 *
 * @param time of the day there: "15:30".
 */
export function nextOf(lines: readonly DeskLine[], time: string): DeskLine | null {
  const open = lines.filter(({ held }) => held === null);
  const now = minutesOfTime(time);
  const isAhead = ({ lessonDay }: DeskLine): boolean =>
    minutesOfTime(lessonDay.from) + lessonDay.minutes > now;
  return open.find(isAhead) ?? open[0] ?? null;
}

/** Who comes on the days after, the nearest first; each once. */
export function comingLater(students: readonly Student[], weekday: number): readonly ComingLater[] {
  return students
    .flatMap((student) => {
      const { lessonDay } = student;
      if (student.archived || !lessonDay) return [];
      const daysAhead = (lessonDay.weekday - weekday + 7) % 7;
      return daysAhead === 0 ? [] : [{ student, lessonDay, daysAhead }];
    })
    .sort(
      (a, b) =>
        a.daysAhead - b.daysAhead || minutesOfTime(a.lessonDay.from) - minutesOfTime(b.lessonDay.from),
    );
}
