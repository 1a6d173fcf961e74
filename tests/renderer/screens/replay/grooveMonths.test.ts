import { expect, test } from "vitest";
import type { StoredTake } from "../../../../engine/records/index.ts";
import {
  commonEdgeMs,
  MOST_LESSONS,
  oneOfEachLesson,
  voiceShort,
  voicesOf,
} from "../../../../renderer/screens/replay/grooveMonths.ts";
import { summaryOf } from "../../../engine/session/lessons.ts";

const stored = (lesson: number, take: number, about: Partial<StoredTake> = {}): StoredTake => ({
  version: 2,
  day: `2026-01-${String((lesson % 28) + 1).padStart(2, "0")}`,
  ...summaryOf(`${lesson}-${take}`, { lessonId: `l${lesson}` }),
  ...about,
});

test("one take of each lesson: the last that was measured", () => {
  const takes = [stored(1, 1), stored(1, 2), stored(1, 3, { spreadMs: null }), stored(2, 1)];
  expect(oneOfEachLesson(takes).map(({ takeId }) => takeId)).toEqual(["1-2", "2-1"]);
});

test("of many lessons evenly spread ones, the first and the last among them", () => {
  const takes = Array.from({ length: 100 }, (_, lesson) => stored(lesson, 1));
  const chosen = oneOfEachLesson(takes).map(({ lessonId }) => Number(lessonId.slice(1)));
  expect(chosen).toHaveLength(MOST_LESSONS);
  expect([chosen[0], chosen.at(-1)]).toEqual([0, 99]);
  expect(new Set(chosen).size).toBe(MOST_LESSONS);
});

test("one scale holds the furthest lean with its spread", () => {
  const far = stored(1, 1, { beats: [{ beat: 1, count: 8, leanMs: -33, spreadMs: 18 }] });
  expect(commonEdgeMs([stored(2, 1), far])).toBe(60);
  expect(commonEdgeMs([])).toBe(20);
});

test("a voice in short, beside lessons in which it was not written", () => {
  const snare = { ...stored(1, 1).voices[0], voice: "snare" as const };
  const take = stored(1, 1, {
    voices: [
      { ...snare, written: 16, asWritten: 12, otherSound: 3, leftOut: 1, added: 4, leanMs: 0, spreadMs: 9 },
    ],
  });
  expect(voiceShort(take, "snare")).toBe("12 of 16, 3 on another sound, 1 left out, 4 added");
  expect(voiceShort(take, "cowbell")).toBe("not written");
  expect(voicesOf([take])).toEqual(["snare"]);
});
