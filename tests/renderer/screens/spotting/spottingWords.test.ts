import { expect, test } from "vitest";
import { type HearingNow, NOTHING_HEARD } from "../../../../renderer/screens/spotting/hearing.ts";
import { statusWords } from "../../../../renderer/screens/spotting/spottingWords.ts";

test.each<[string, Partial<HearingNow>, boolean, string]>([
  ["a kit is to play", { what: "question" }, false, "Play it on the kit. A silence ends it."],
  ["a kit plays", { what: "question", strokes: 9 }, false, "I am listening. A silence ends it."],
  ["it is over", { what: "question", isThoughtOver: true }, false, "I am thinking over what was played."],
  [
    "again was asked for",
    { what: "question", isThoughtOver: true, isAgainAsked: true },
    false,
    "I am thinking over what was played. Again: it comes as soon as that is done.",
  ],
  ["the program sounds it", { what: "answer" }, true, "Listen."],
  ["nothing is played back", { what: "answer" }, false, "Say it, type it, or play it back."],
  ["it is played back", { what: "answer", strokes: 9 }, false, "I am listening to what is played back."],
  [
    "what was played back is over",
    { what: "answer", isThoughtOver: true },
    false,
    "I am thinking over what was played back.",
  ],
  ["it could not be told", { what: "answer", note: "I cannot tell." }, false, "I cannot tell."],
])("%s", (_, hearing, isSounding, words) => {
  expect(statusWords({ roles: "student-names" }, { ...NOTHING_HEARD, ...hearing }, isSounding)).toBe(words);
});

test("turned round it is the student who plays", () => {
  expect(statusWords({ roles: "teacher-names" }, { ...NOTHING_HEARD, what: "question" }, false)).toBe(
    "The student plays it on the kit. A silence ends it.",
  );
});
