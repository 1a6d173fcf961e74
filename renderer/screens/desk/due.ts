/** Question: what is due for a student at the lesson ahead? */
import {
  type Day,
  type GoingWell,
  goesWell,
  inOrder,
  type Liking,
  lessonAhead,
  likingOf,
  type NextTimeList,
  nextTimeList,
  type OwnNames,
} from "../../../engine/memory/index.ts";
import type { LessonRecord, Student } from "../../../engine/records/index.ts";
import { lessonsOfStudent, type StudioDatabase, told } from "../../store/index.ts";
import { inStudio } from "../next-time/nextTimePlace.ts";

export interface Due {
  readonly list: NextTimeList;
  /** What can be dealt on a bad day. */
  readonly goesWell: readonly GoingWell[];
  readonly liking: Liking;
  readonly ownNames: OwnNames;
  /** Lessons held so far, the one that is on among them. */
  readonly lessons: number;
  readonly latest: LessonRecord | null;
}

/** @throws StoreError */
export async function dueFor(database: StudioDatabase, student: Student, today: Day): Promise<Due> {
  const place = inStudio(database);
  const [evidence, retention, lessons, [latest]] = await Promise.all([
    place.evidenceOf(student),
    place.retention(),
    told(() => database.lessons.where("studentIds").equals(student.id).count()),
    lessonsOfStudent(database, student.id, 1),
  ]);
  const lastHeld = inOrder(evidence.results).at(-1)?.day ?? null;
  const lessonDay = lessonAhead(today, student.lessonDay?.weekday, lastHeld);
  const { results, changes, ownNames } = evidence;
  return {
    list: nextTimeList({ results, changes, lessonDay, retention }),
    goesWell: goesWell(results, today),
    liking: likingOf(results),
    ownNames,
    lessons,
    latest: latest ?? null,
  };
}
