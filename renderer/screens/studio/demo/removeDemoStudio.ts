import { type StudioDatabase, told } from "../../../store/index.ts";
import { eraseLesson } from "../../roster/eraseStudent.ts";

/** Everything that is marked as invented goes: students, groups, lessons, and what was played or planned with them since. */
export async function removeDemoStudio(database: StudioDatabase): Promise<void> {
  const students = await told(() => database.students.filter(({ invented }) => invented === true).toArray());
  const ids = new Set(students.map(({ id }) => id));
  const lessons = await told(() =>
    database.lessons
      .filter(
        ({ invented, studentIds }) =>
          invented === true || (studentIds.length > 0 && studentIds.every((id) => ids.has(id))),
      )
      .primaryKeys(),
  );
  for (const lessonId of lessons) await eraseLesson(database, lessonId);
  await told(() =>
    database.transaction("rw", [database.students, database.groups, database.listChanges], async () => {
      await database.listChanges.filter(({ studentId }) => ids.has(studentId)).delete();
      await database.groups.filter(({ invented }) => invented === true).delete();
      await database.students.bulkDelete([...ids]);
    }),
  );
}
