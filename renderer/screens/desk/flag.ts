import type { LessonBook } from "../../session/lessonBook.ts";

/** Flags this moment of the lesson: it is looked at first when the lesson is gone over. */
export function flagThisMoment(
  book: Pick<LessonBook, "log" | "remark">,
  by: "button" | "key" | "strike",
): void {
  if (!book.log.isOn) return;
  book.log.add({ kind: "command", command: "flag", by });
  book.remark("", { flagged: true });
}
