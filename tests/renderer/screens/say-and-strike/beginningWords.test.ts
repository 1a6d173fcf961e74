import { expect, test } from "vitest";
import { beginningWords } from "../../../../renderer/screens/say-and-strike/beginningWords.ts";

test.each([
  [
    "nobody in particular",
    null,
    null,
    "They begin at step 1 of 16: one bar, 4 strokes on one drum, on the beats, 72 beats a minute. How far they come is remembered in a lesson only.",
  ],
  [
    "new",
    "Ottilie",
    null,
    "Ottilie has not struck any yet, and begins at step 1 of 16, by the level: one bar, 4 strokes on one drum, on the beats, 72 beats a minute.",
  ],
  [
    "last week",
    "Ottilie",
    { rung: 6, daysAgo: 7 },
    "Ottilie goes on at step 6 of 16, as left off 7 days ago: one bar, 6 strokes on 3 drums, eighths, 84 beats a minute.",
  ],
  [
    "today",
    "Ottilie",
    { rung: 13, daysAgo: 0 },
    "Ottilie goes on at step 13 of 16, as left off earlier today: 2 bars, 12 strokes on 4 drums, sixteenths, at times without the one, 80 beats a minute.",
  ],
  [
    "long ago",
    "Ottilie",
    { rung: 6, daysAgo: 40 },
    "Ottilie left off at step 6, 40 days ago, and begins at step 5 of 16: after more than 21 days the start is one easier. One bar, 5 strokes on 3 drums, eighths, 80 beats a minute.",
  ],
] as const)("%s", (_, name, left, words) => {
  expect(beginningWords(name, "first-year", left)).toBe(words);
});
