import { expect, test } from "vitest";
import { lengthWords, momentSpoken, momentWords } from "../../../../renderer/screens/replay/replayWords.ts";

test.each([
  [0, "0.0 seconds"],
  [59.98, "59.9 seconds"],
  [60, "1 minute 0.0 seconds"],
  [94.25, "1 minute 34.2 seconds"],
  [754.25, "12 minutes 34.2 seconds"],
])("%f seconds into the lesson is spoken as %s", (time, words) => {
  expect(momentSpoken(time)).toBe(words);
});

test.each([
  [-1, 0, "0:00"],
  [59.999, 0, "0:59"],
  [94.007, 3, "1:34.007"],
  [94.999, 2, "1:34.99"],
])("%f seconds, to %i places, are written %s: no second that has not come", (time, places, words) => {
  expect(momentWords(time, places)).toBe(words);
});

test.each([
  [1, "1 second"],
  [89.4, "89 seconds"],
  [90, "2 minutes"],
  [1800, "30 minutes"],
])("a length of %f seconds is %s", (seconds, words) => {
  expect(lengthWords(seconds)).toBe(words);
});
