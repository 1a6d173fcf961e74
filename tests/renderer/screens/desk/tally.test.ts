import { expect, test } from "vitest";
import type { ItemResult, Outcome } from "../../../../engine/session/index.ts";
import { lessonClock } from "../../../../renderer/screens/desk/deskWords.ts";
import { isEmptyTally, tallyOf } from "../../../../renderer/screens/desk/tally.ts";

function result(
  item: ItemResult["item"],
  outcome: Outcome,
  words: string,
  studentId = "ottilie",
): ItemResult {
  return { item, outcome, studentId, at: "2026-03-02T15:30:00.000Z", evidence: { words, roundId: "r" } };
}

const names = (lines: readonly { readonly name: string }[]) => lines.map(({ name }) => name);

test("each thing stands once for each student, as it was the last time it was asked", () => {
  const tally = tallyOf({
    takes: [],
    tally: [
      result("style:shuffle", "slipped", "first"),
      result("style:bossa-nova", "known", "Held at 96 a minute."),
      result("style:shuffle", "known", "then"),
      result("style:shuffle", "slipped", "his", "bram"),
    ],
  });
  expect(names(tally.known)).toEqual(["Shuffle", "Bossa nova"]);
  expect(tally.known.map(({ words }) => words)).toEqual(["then", "at 96 a minute."]);
  expect(tally.slipped).toEqual([{ name: "Shuffle", studentId: "bram", words: "his" }]);
  expect(tally.new).toEqual([]);
});

test("what was met for the first time and missed again is new still; held in the end, it held", () => {
  const missed = [result("style:samba", "new", "1"), result("style:samba", "slipped", "2")];
  expect(names(tallyOf({ takes: [], tally: missed }).new)).toEqual(["Samba"]);
  const held = tallyOf({ takes: [], tally: [...missed, result("style:samba", "known", "3")] });
  expect([names(held.known), names(held.new), names(held.slipped)]).toEqual([["Samba"], [], []]);
});

test("a round in which nothing was called says so", () => {
  expect(isEmptyTally(tallyOf({ takes: [], tally: [] }))).toBe(true);
});

test.each([
  [0, "0:00"],
  [192.7, "3:12"],
  [-2, "0:00"],
  [3725, "62:05"],
])("%s seconds into a lesson is %s", (seconds, words) => {
  expect(lessonClock(seconds)).toBe(words);
});
