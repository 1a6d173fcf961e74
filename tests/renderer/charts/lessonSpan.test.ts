import { expect, test } from "vitest";
import { dayNumber } from "../../../engine/memory/index.ts";
import { lessonSpan, monthAfter } from "../../../renderer/charts/lessonSpan.ts";

test("whole months from the first lesson to the last, whatever their order", () => {
  expect(lessonSpan(["2026-03-09", "2025-12-31", "2026-02-01"])).toEqual({
    from: dayNumber("2025-12-01"),
    to: dayNumber("2026-04-01"),
    ticks: ["2025-12-01", "2026-01-01", "2026-02-01", "2026-03-01"].map(dayNumber),
  });
});

test("a year at most, and no more names than fit", () => {
  expect(lessonSpan(["2019-05-04", "2026-03-09"])).toEqual({
    from: dayNumber("2025-04-01"),
    to: dayNumber("2026-04-01"),
    ticks: ["2025-04-01", "2025-06-01", "2025-08-01", "2025-10-01", "2025-12-01", "2026-02-01"].map(
      dayNumber,
    ),
  });
});

test("no lessons, no span", () => {
  expect(lessonSpan([])).toBeNull();
});

test.each([
  ["2026-03", 1, "2026-04"],
  ["2025-12", 1, "2026-01"],
  ["2026-01", -1, "2025-12"],
  ["2026-03", -12, "2025-03"],
  ["2026-03", 22, "2028-01"],
])("%s and %i months is %s", (month, count, later) => {
  expect(monthAfter(month, count)).toBe(later);
});
