import { expect, test } from "vitest";
import type { SayAndStrikeEvent } from "../../../engine/rounds/index.ts";
import { leftOff, phrasesBefore } from "../../../renderer/app/phrasesEarlier.ts";
import type { LessonBook } from "../../../renderer/session/lessonBook.ts";
import { SteppedRound } from "../../../renderer/session/steppedRound.ts";
import { opened } from "../session/lessonsPlayed.ts";

const DAY_SECONDS = 24 * 3600;

/** A phrase of a rung, answered by a student; `null`: a person chose it. */
function phrase(by: string, rung: number | null, holds: boolean): readonly SayAndStrikeEvent[] {
  const strokes = [
    { time: 0, voice: "kick" as const },
    { time: 0.5, voice: "snare" as const },
  ];
  const answer = holds ? strokes : strokes.map(({ time }) => ({ time, voice: "kick" as const }));
  return [
    { kind: "called", strokes, text: "doo ka", tempoBpm: 120, source: "program", rung, of: [by] },
    { kind: "answered", by, strokes: answer, way: "struck", level: "steady" },
  ];
}

async function played(
  book: LessonBook,
  ...phrases: readonly (readonly SayAndStrikeEvent[])[]
): Promise<void> {
  const round = new SteppedRound("say-and-strike", book, () => 0);
  round.begin(["ottilie", "bram"]);
  for (const step of phrases.flat()) round.add(step);
  round.stop();
}

async function lesson(
  book: LessonBook,
  ...phrases: readonly (readonly SayAndStrikeEvent[])[]
): Promise<void> {
  await book.begin(["ottilie", "bram"]);
  await played(book, ...phrases);
  await book.end();
  await book.writer.write();
}

test("of the latest lesson with phrases of the program; each student's own; the lesson that is on left out", async () => {
  const { book, data, place } = await opened();
  await lesson(book, phrase("ottilie", 5, true), phrase("bram", 2, false), phrase("ottilie", 5, true));
  place.clock.pass(7 * DAY_SECONDS);
  await lesson(book, phrase("ottilie", null, true));
  const lessonId = book.log.get().began?.lessonId;
  expect(await phrasesBefore(data, "ottilie", lessonId)).toEqual({
    day: "2026-03-02",
    results: [
      { rung: 5, held: true },
      { rung: 5, held: true },
    ],
  });
  // The phrases of the second lesson were chosen: they say nothing of how hard they are.
  expect(await phrasesBefore(data, "ottilie")).toEqual(await phrasesBefore(data, "ottilie", lessonId));
  expect((await phrasesBefore(data, "bram"))?.results).toEqual([{ rung: 2, held: false }]);
  expect(await phrasesBefore(data, "casimir")).toBeNull();
});

test("left off: the rung that would have come next, and how many days ago; today's rounds count first", async () => {
  const { book, data, place } = await opened();
  await lesson(book, phrase("ottilie", 5, true), phrase("ottilie", 5, true));
  place.clock.pass(30 * DAY_SECONDS);
  await book.begin(["ottilie", "bram"]);
  const earlier = await phrasesBefore(data, "ottilie", book.log.get().began?.lessonId);
  expect(leftOff("ottilie", earlier, book.log.get())).toEqual({ rung: 6, daysAgo: 30 });
  expect(leftOff("bram", null, book.log.get())).toBeNull();

  const round = new SteppedRound("say-and-strike", book, () => 0);
  round.begin(["ottilie", "bram"]);
  for (const step of phrase("ottilie", 6, false)) round.add(step);
  // A round that is on tells itself.
  expect(leftOff("ottilie", earlier, book.log.get())).toEqual({ rung: 6, daysAgo: 30 });
  round.stop();
  await expect.poll(() => leftOff("ottilie", earlier, book.log.get())).toEqual({ rung: 5, daysAgo: 0 });
});
