import { expect, test } from "vitest";
import {
  allowedHours,
  dose,
  hoursWords,
  NIOSH_DAY,
  WHO_WEEK,
  WHO_WEEK_CHILDREN,
} from "../../../renderer/audio/exposure.ts";

// NIOSH pub. 98-126 (1998), table of durations: minutes at a level.
test.each([
  [82, 960],
  [85, 480],
  [88, 240],
  [91, 120],
  [94, 60],
  [97, 30],
  [100, 15],
  [103, 7.5],
  [106, 3.75],
  [109, 1.875],
])("NIOSH: %i dBA for %f minutes a day", (levelDba, minutes) => {
  expect(allowedHours(levelDba, NIOSH_DAY) * 60).toBeCloseTo(minutes, 9);
});

test("NIOSH: 95 dBA for 47.62 minutes", () => {
  expect(allowedHours(95, NIOSH_DAY) * 60).toBeCloseTo(47.62, 2);
});

// WHO-ITU H.870 (2018, revised 2022), adults 80 dBA for 40 h a week, equal energy.
test.each([
  [80, 40],
  [83, 20],
  [86, 10],
  [89, 5],
  [92, 2.5],
])("WHO: %i dBA for %f hours a week", (levelDba, hours) => {
  expect(allowedHours(levelDba, WHO_WEEK)).toBeCloseTo(hours, 9);
});

// The same, children and sensitive people: 75 dBA.
test.each([
  [75, 40],
  [78, 20],
  [81, 10],
  [90, 1.25],
])("WHO, children: %i dBA for %f hours a week", (levelDba, hours) => {
  expect(allowedHours(levelDba, WHO_WEEK_CHILDREN)).toBeCloseTo(hours, 9);
});

// NIOSH's mixed dose: 2 h at 88 and 30 min at 94 are half the day each.
test("a mixed day adds up", () => {
  const day = [
    { levelDba: 88, hours: 2 },
    { levelDba: 94, hours: 0.5 },
  ];
  expect(dose(day, NIOSH_DAY)).toBeCloseTo(1, 12);
  expect(dose([], NIOSH_DAY)).toBe(0);
});

test.each([
  [8, "8 hours"],
  [1, "1 hour"],
  [1.25, "1.3 hours"],
  [0.25, "15 minutes"],
])("%f hours are said: %s", (hours, words) => {
  expect(hoursWords(hours)).toBe(words);
});
