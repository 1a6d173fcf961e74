import fc from "fast-check";
import { expect, test } from "vitest";
import { lessonHref, lessonsHref, replayPlaceOf } from "../../../../renderer/screens/replay/replayPlace.ts";

test("a link to a moment leads to it, to the millisecond", () => {
  fc.assert(
    fc.property(
      fc.string({ minLength: 1 }).filter((id) => id !== "student"),
      fc.integer({ min: 0, max: 7_200_000 }),
      (lessonId, ms) => {
        expect(replayPlaceOf(lessonHref(lessonId, ms / 1000))).toEqual({
          kind: "lesson",
          lessonId,
          seconds: ms / 1000,
        });
        expect(replayPlaceOf(lessonHref(lessonId))).toEqual({ kind: "lesson", lessonId, seconds: null });
      },
    ),
  );
});

test.each([
  ["#/replay", { kind: "lessons", studentId: null }],
  ["#/replay/", { kind: "lessons", studentId: null }],
  ["", { kind: "lessons", studentId: null }],
  [lessonsHref("noor/2"), { kind: "lessons", studentId: "noor/2" }],
  [lessonsHref(null), { kind: "lessons", studentId: null }],
  ["#/replay/l1/soon", { kind: "lesson", lessonId: "l1", seconds: null }],
  ["#/replay/l1/-4", { kind: "lesson", lessonId: "l1", seconds: 0 }],
  ["#/replay/50%/3", { kind: "lesson", lessonId: "50%", seconds: 3 }],
] as const)("%s is read as it is meant, and nothing is guessed", (hash, place) => {
  expect(replayPlaceOf(hash)).toEqual(place);
});
