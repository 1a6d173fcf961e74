/** The studio's students and groups, as they are kept. */
import { type Group, groupSchema, type Student, studentSchema } from "../../engine/records/index.ts";
import { readRows, told } from "./readRows.ts";
import type { StudioDatabase } from "./studioDatabase.ts";

/** All students, archived ones too, by nickname. */
export async function studentsOf(database: StudioDatabase): Promise<readonly Student[]> {
  const rows = await told(() => database.students.toArray());
  const { values } = await readRows(database, database.students, studentSchema, rows);
  return [...values].sort((a, b) => a.nickname.localeCompare(b.nickname) || (a.id < b.id ? -1 : 1));
}

/** Keeps a student, new or changed. @throws StoreError */
export async function keepStudent(database: StudioDatabase, student: Student): Promise<void> {
  await told(() => database.students.put(studentSchema.parse(student)));
}

export async function groupsOf(database: StudioDatabase): Promise<readonly Group[]> {
  const rows = await told(() => database.groups.toArray());
  const { values } = await readRows(database, database.groups, groupSchema, rows);
  return [...values].sort((a, b) => a.name.localeCompare(b.name) || (a.id < b.id ? -1 : 1));
}

/** Keeps a group, new or changed. @throws StoreError */
export async function keepGroup(database: StudioDatabase, group: Group): Promise<void> {
  await told(() => database.groups.put(groupSchema.parse(group)));
}
