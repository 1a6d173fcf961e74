import { expect, test } from "vitest";
import { lessonState } from "../../../../engine/session/index.ts";
import { mergeStudents, unmergeStudents } from "../../../../renderer/screens/roster/mergeStudents.ts";
import {
  lessonsOfStudent,
  readLesson,
  resultsOfStudent,
  takesOfStudent,
} from "../../../../renderer/store/index.ts";
import { ALONE, allThatIsKept, BRAM, keptStudio, OF_BRAM, OTTILIE, SHARED } from "./keptStudio.ts";

test("everything of one becomes the other's, and nothing names the one who is gone", async () => {
  const database = await keptStudio();
  await database.settings.clear();
  await database.setAside.clear();
  await mergeStudents(database, BRAM, OTTILIE);
  expect(await allThatIsKept(database)).not.toContain(JSON.stringify(OTTILIE.id));
  const lessons = await lessonsOfStudent(database, BRAM.id);
  expect(lessons.map(({ id }) => id)).toEqual([SHARED, OF_BRAM, ALONE]);
  expect(lessons[0]?.studentIds).toEqual([BRAM.id]);
  expect(await takesOfStudent(database, BRAM.id)).toHaveLength(4);
  expect(await resultsOfStudent(database, BRAM.id)).toHaveLength(4);
  const { events } = await readLesson(database, SHARED);
  expect(lessonState(events).began?.studentIds).toEqual([BRAM.id]);
  expect(events.filter(({ kind }) => kind === "hit")).toHaveLength(18);
  expect((await database.groups.get("g"))?.studentIds).toEqual([BRAM.id]);
  expect((await database.students.get(BRAM.id))?.notes).toBe("Louder than Ottilie.\nSits beside Bram.");
});

test("taken back, everything is as it was", async () => {
  const database = await keptStudio();
  const before = await allThatIsKept(database);
  const merged = await mergeStudents(database, BRAM, OTTILIE);
  expect(await allThatIsKept(database)).not.toBe(before);
  await unmergeStudents(database, merged);
  expect(await allThatIsKept(database)).toBe(before);
});
