import { describe, expect, test } from "vitest";
import type { GapDrift } from "../../../../../engine/grading/index.ts";
import { silenceSection } from "../../../../../renderer/screens/call-a-style/report/silenceSection.ts";

const ahead = (bar: number, movedMs: number): GapDrift => ({ bar, bars: 1, movedMs, giveOrTakeMs: 5 });

describe("while the click was silent", () => {
  test("each silence has its row, and the furthest its sentence", () => {
    const [section] = silenceSection([ahead(3, -31), ahead(6, -40)]);
    expect(section?.sentences).toEqual([
      "The click fell silent two times. At its return you were ahead of it each time.",
      "Bar 6 without the click: at its return you were 40 ms ahead of it, give or take 5 ms.",
    ]);
    expect(section?.table?.rows.map(([where]) => where)).toEqual(["bar 3", "bar 6"]);
  });

  test("a single one is told once", () => {
    const [section] = silenceSection([ahead(3, -40)]);
    expect(section?.sentences).toEqual([
      "Bar 3 without the click: at its return you were 40 ms ahead of it, give or take 5 ms.",
    ]);
  });

  test("without a silence there is no such section", () => {
    expect(silenceSection([])).toEqual([]);
  });
});
