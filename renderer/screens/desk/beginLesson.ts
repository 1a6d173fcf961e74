/** Beginning a lesson: the book, the kits and the rounds together. */
import type { Lane } from "../../../engine/session/index.ts";
import type { Program } from "../../app/program.ts";
import type { Studio } from "../../app/studio.ts";

/**
 * Begins a lesson: the first kit is lane 0; where there is a second one, it is lane 1, recorded too. What records it is
 * loaded first: no strike may be lost.
 *
 * @param secondStudentId who sits at the second kit; without one, the teacher does.
 */
export async function beginLesson(
  { session, lesson }: Pick<Program, "session" | "lesson">,
  { book }: Pick<Studio, "book">,
  studentId: string,
  secondStudentId: string | null = null,
): Promise<void> {
  await lesson.load();
  const kit = session.connection.get();
  const second = session.secondKit.get();
  const lanes: Lane[] = [
    { studentId, source: "kit", ...(kit.state === "connected" ? { kit: kit.input.name } : {}) },
  ];
  if (second.state !== "none")
    lanes.push({ studentId: secondStudentId, source: "kit", kit: second.input.name });
  await book.begin(secondStudentId === null ? [studentId] : [studentId, secondStudentId], lanes);
}

/** Begins a lesson of several students at one kit: whoever sits there, what is played at it is of nobody in particular. */
export async function beginGroupLesson(
  { session, lesson }: Pick<Program, "session" | "lesson">,
  { book }: Pick<Studio, "book">,
  studentIds: readonly string[],
): Promise<void> {
  await lesson.load();
  const kit = session.connection.get();
  const named = kit.state === "connected" ? { kit: kit.input.name } : {};
  book.begin(studentIds, [{ studentId: null, source: "kit", ...named }]);
}
