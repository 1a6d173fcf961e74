import { describe, expect, test } from "vitest";
import { repeatingPeriods } from "../../../engine/listening/periods.ts";
import { strokesOfHits } from "../../../engine/listening/roles.ts";
import { played, writtenGrooveOf } from "./played.ts";

describe("the periods at which strokes repeat", () => {
  test.each([
    { id: "rock-eighths", tempoBpm: 110, beats: 4 },
    { id: "merengue", tempoBpm: 140, beats: 4 },
    { id: "jazz-waltz", tempoBpm: 150, beats: 3 },
  ])("the bar of $id at $tempoBpm is among them, to a part in five hundred", ({ id, tempoBpm, beats }) => {
    const hits = played(writtenGrooveOf(id), { tempoBpm, bars: 5, spreadMs: 8 });
    const bar = (beats * 60) / tempoBpm;
    const nearest = Math.min(
      ...repeatingPeriods(strokesOfHits(hits), 9).map((period) => Math.abs(period / bar - 1)),
    );
    expect(nearest).toBeLessThan(0.002);
  });

  test("there are none in nothing", () => {
    expect(repeatingPeriods([], 5)).toEqual([]);
  });
});
