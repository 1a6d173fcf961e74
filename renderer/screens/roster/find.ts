/** Question: which students are meant by what is typed? */
import type { Group, Student } from "../../../engine/records/index.ts";
import { levelName } from "../../../engine/score/index.ts";
import { lessonDayWords } from "./lessonTimes.ts";

export interface RosterFilter {
  readonly typed: string;
  /** `null`: all groups and none. */
  readonly groupId: string | null;
  readonly archived: boolean;
}

/** Students whose nickname, level, notes or lesson day hold every word that is typed, accents and case aside. */
export function findStudents(
  students: readonly Student[],
  groups: readonly Group[],
  { typed, groupId, archived }: RosterFilter,
): readonly Student[] {
  const words = bare(typed)
    .split(/\s+/)
    .filter((word) => word !== "");
  const group = groups.find(({ id }) => id === groupId);
  return students.filter((student) => {
    if (student.archived !== archived) return false;
    if (group && !group.studentIds.includes(student.id)) return false;
    const { nickname, level, notes, lessonDay } = student;
    const all = bare(`${nickname} ${levelName(level)} ${notes} ${lessonDayWords(lessonDay)}`);
    return words.every((word) => all.includes(word));
  });
}

function bare(text: string): string {
  return text.normalize("NFD").replace(/\p{M}/gu, "").toLocaleLowerCase();
}
