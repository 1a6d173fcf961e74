import { expect, test } from "vitest";
import { agoWords, evidenceOf, evidenceWords, type Result } from "../../../engine/memory/index.ts";
import { result } from "./results.ts";

function words(...results: readonly Result[]): string {
  const evidence = evidenceOf(results);
  if (!evidence) throw new Error("No results were made.");
  return evidenceWords(evidence, "2026-03-02");
}

test("says what was held and missed, and when", () => {
  const held = result("style:samba", "known", "2026-02-09");
  const missed = result("style:samba", "slipped", "2026-02-23");
  expect(words(held)).toBe("Held once, 3 weeks ago.");
  expect(words(held, missed)).toBe("Held once, 3 weeks ago; missed once, a week ago.");
  expect(words(held, result("style:samba", "known", "2026-03-01"), missed)).toBe(
    "Held twice, last yesterday; missed once, a week ago.",
  );
  expect(words(missed, result("style:samba", "slipped", "2026-03-02"))).toBe(
    "Missed twice, last today; not held yet.",
  );
  expect(words(result("style:samba", "new", "2026-02-26"))).toBe("First met 4 days ago, not held yet.");
});

test("keeps the words and the take of the latest result", () => {
  const take = { ...result("style:samba", "slipped", "2026-02-23") };
  const evidence = evidenceOf([
    { ...take, evidence: { words: "The kick was left out twice.", roundId: "r", takeId: "take-7" } },
    result("style:samba", "known", "2026-02-09"),
  ]);
  expect(evidence).toMatchObject({
    words: "The kick was left out twice.",
    takeId: "take-7",
    firstDay: "2026-02-09",
    lastDay: "2026-02-23",
    lastKnownDay: "2026-02-09",
    days: 2,
  });
});

test("there is none without results", () => {
  expect(evidenceOf([])).toBeNull();
});

test.each([
  [-1, "after that day"],
  [0, "today"],
  [1, "yesterday"],
  [6, "6 days ago"],
  [7, "a week ago"],
  [14, "2 weeks ago"],
  [59, "8 weeks ago"],
  [91, "3 months ago"],
  [730, "2 years ago"],
])("%i days are %s", (days, said) => {
  expect(agoWords(days)).toBe(said);
});
