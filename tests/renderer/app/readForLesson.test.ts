import { expect, test, vi } from "vitest";
import { ReadForLesson } from "../../../renderer/app/readForLesson.ts";
import { LessonLog } from "../../../renderer/session/lessonLog.ts";
import { StoreError } from "../../../renderer/store/index.ts";

function begun(log: LessonLog, lessonId: string, studentIds: readonly string[]): void {
  log.begin({ lessonId, studentIds, lanes: [{ studentId: null, source: "kit" }], zone: "UTC" });
}

test("it is read of each when a lesson begins, and let go when it ends", async () => {
  const log = new LessonLog();
  const kept = new ReadForLesson(log, async (student, lesson) => `${student} before ${lesson}`, "Not read.");
  expect(kept.by("noor")).toBeUndefined();
  begun(log, "tuesday", ["bram", "noor"]);
  await vi.waitFor(() => expect(kept.by("noor")).toBe("noor before tuesday"));
  expect(kept.by("bram")).toBe("bram before tuesday");
  expect(kept.by(null)).toBeUndefined();
  log.end();
  expect(kept.by("noor")).toBeUndefined();
});

test("what cannot be read is said, once of the lesson it was of", async () => {
  const log = new LessonLog();
  const kept = new ReadForLesson(
    log,
    () => Promise.reject(new StoreError("The studio is shut.")),
    "Not read.",
  );
  begun(log, "tuesday", ["noor"]);
  await vi.waitFor(() => expect(kept.get().trouble).toMatch(/^Not read\. /));
  log.end();
  expect(kept.get().trouble).toBeNull();
});
