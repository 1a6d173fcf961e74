import { expect, test } from "vitest";
import type { BackTurnedEvent } from "../../../engine/rounds/index.ts";
import { heardBefore, NOTHING_HEARD } from "../../../renderer/app/heardEarlier.ts";
import type { LessonBook } from "../../../renderer/session/lessonBook.ts";
import { SteppedRound } from "../../../renderer/session/steppedRound.ts";
import { opened } from "../session/lessonsPlayed.ts";

/** A lesson of two in which each answers a question: Bram rightly, Noor not. */
async function lessonOfTwo(book: LessonBook, rung: number): Promise<void> {
  await book.begin(["bram", "noor"]);
  const round = new SteppedRound("back-turned", book, () => 0);
  round.begin(["bram", "noor"], { answering: "all-at-once" });
  const steps: readonly BackTurnedEvent[] = [
    { kind: "asked", moments: [[{ surface: "ride" }]], rung, of: ["bram", "noor"] },
    { kind: "answered", by: "bram", moments: [[{ surface: "ride" }]], way: "named" },
    { kind: "answered", by: "noor", moments: [[{ surface: "bell" }]], way: "named" },
  ];
  for (const step of steps) round.add(step);
  await book.end();
  await book.writer.write();
}

test("what each heard in earlier lessons, the oldest first; the lesson that is on left out", async () => {
  const { book, data, place } = await opened();
  await lessonOfTwo(book, 3);
  place.clock.pass(7 * 24 * 3600);
  await lessonOfTwo(book, 5);
  const lessonId = book.log.get().began?.lessonId ?? "";
  expect(await heardBefore(data, "bram")).toEqual({
    answers: [
      { rung: 3, right: true },
      { rung: 5, right: true },
    ],
    heard: [
      { sounded: "ride", named: "ride" },
      { sounded: "ride", named: "ride" },
    ],
  });
  expect(await heardBefore(data, "noor", lessonId)).toEqual({
    answers: [{ rung: 3, right: false }],
    heard: [{ sounded: "ride", named: "bell" }],
  });
  expect(await heardBefore(data, "casimir")).toEqual(NOTHING_HEARD);
});
