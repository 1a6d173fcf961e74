import { renderToStaticMarkup } from "react-dom/server";
import { expect, test } from "vitest";
import type { LessonFigures } from "../../../engine/memory/index.ts";
import { lessonSpan } from "../../../renderer/charts/lessonSpan.ts";
import { countScale, OutcomesByLesson } from "../../../renderer/charts/OutcomesByLesson.tsx";

const lessons: readonly LessonFigures[] = [
  { day: "2026-01-12", known: 0, slipped: 0, new: 2 },
  { day: "2026-02-02", known: 4, slipped: 1, new: 1 },
  { day: "2026-03-09", known: 3, slipped: 0, new: 0 },
];

function chartOf(all: readonly LessonFigures[], scale = countScale(all)): string {
  const span = lessonSpan(all.map(({ day }) => day));
  if (!span) throw new Error("There are lessons.");
  return renderToStaticMarkup(
    <OutcomesByLesson name="playing grooves" lessons={all} span={span} scale={scale} />,
  );
}

test("the table beside it says every figure", () => {
  const rows = [...chartOf(lessons).matchAll(/<tr>(.*?)<\/tr>/gs)].map(([, row]) =>
    [...(row ?? "").matchAll(/<t[hd][^>]*>(.*?)<\/t[hd]>/gs)].map(([, cell]) => cell),
  );
  expect(rows).toEqual([
    ["lesson", "held", "missed", "new"],
    ["12 Jan 2026", "0", "0", "2"],
    ["2 Feb 2026", "4", "1", "1"],
    ["9 March 2026", "3", "0", "0"],
  ]);
});

test.each([
  ["the most of one lesson on either side", lessons, { above: 5, below: 1 }],
  ["one either way at least", [], { above: 1, below: 1 }],
] as const)("the scale is %s", (_, all, scale) => {
  expect(countScale(all)).toEqual(scale);
});
