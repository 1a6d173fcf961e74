import { describe, expect, test } from "vitest";
import { grooveById } from "../../../engine/catalogue/index.ts";
import { PLACES_PER_BEAT, ROLE_COUNT, readBackground } from "../../../engine/listening/learning.ts";
import { type LearntBar, learnBars } from "../../../scripts/learn/bars.ts";
import { fixtureTakes, madeTake } from "./fixtureTakes.ts";

const MADE = [1, 2, 3, 4].flatMap((seed) => [
  madeTake("rock-eighths", 100 + 6 * seed, 16, seed),
  madeTake("bossa-nova", 120 + 4 * seed, 16, 10 + seed),
  madeTake("jazz-waltz", 140 + 8 * seed, 16, 20 + seed),
]);
const made = learnBars(MADE);

const sharesOf = (bars: readonly LearntBar[], beats: number): number =>
  bars.filter((bar) => bar.beats === beats).reduce((sum, { share }) => sum + share, 0);

/** Strokes of the kick, the first of the roles, at each sixteenth of the bar with the places beside it. */
function kicks({ beats, rates }: LearntBar): readonly number[] {
  const places = beats * PLACES_PER_BEAT;
  return Array.from({ length: 4 * beats }, (_, sixteenth) =>
    [-1, 0, 1].reduce((sum, beside) => {
      const place = (sixteenth * 3 + beside + places) % places;
      return sum + (rates[place] ?? 0) / 1000;
    }, 0),
  );
}

describe("bars learnt from takes", () => {
  test.each([
    { name: "made of two grooves in four and one in three", bars: made },
    { name: "of people, with a waltz", bars: learnBars([...fixtureTakes(), madeTake("waltz", 120, 16, 5)]) },
  ])("$name: all that listening reads", ({ bars }) => {
    for (const { beats, rates, share, tempoLogSd } of bars) {
      expect(rates.length).toBe(ROLE_COUNT * beats * PLACES_PER_BEAT);
      expect(rates.every((rate) => Number.isInteger(rate) && rate >= 0)).toBe(true);
      expect(share).toBeGreaterThan(0);
      // Never surer of a tempo than a quarter, in natural log.
      expect(tempoLogSd).toBeGreaterThanOrEqual(0.25);
    }
    // Bars of three are believed in as before anything was heard, however many takes are in three.
    expect(sharesOf(bars, 4)).toBeCloseTo(0.95, 3);
    expect(sharesOf(bars, 3)).toBeCloseTo(0.05, 3);
    expect(
      readBackground({ components: bars, reading: [], naming: { asWritten: [], byTakes: [] } }).beats.length,
    ).toBe(2);
  });

  test.each([
    { id: "rock-eighths", beats: 4, low: 100, high: 130 },
    { id: "bossa-nova", beats: 4, low: 120, high: 140 },
  ])("one of them is $id: its kicks, about its tempo", ({ id, beats, low, high }) => {
    const groove = grooveById(id);
    if (!groove) throw new Error(`The catalogue has no ${id}.`);
    // Over all its bars: a bar of two is learnt as one.
    const written = Array<number>(4 * beats).fill(0);
    for (const { voice, position } of groove.notes) {
      const sixteenth = ((4 * position.num) / position.den) % written.length;
      if (voice === "kick") written[sixteenth] = (written[sixteenth] ?? 0) + 1 / groove.bars;
    }
    const misfits = made
      .filter((bar) => bar.beats === beats)
      .map((bar) => ({
        bar,
        misfit: kicks(bar).reduce((sum, rate, at) => sum + Math.abs(rate - (written[at] ?? 0)), 0),
      }))
      .sort((a, b) => a.misfit - b.misfit);
    const [nearest] = misfits;
    const strokes = written.reduce((sum, rate) => sum + rate, 0);
    expect(nearest?.misfit ?? strokes).toBeLessThan(0.4 * strokes);
    const tempoBpm = Math.exp(nearest?.bar.tempoLogMean ?? 0);
    expect(tempoBpm).toBeGreaterThan(low);
    expect(tempoBpm).toBeLessThan(high);
  });

  test("the same takes give the same bars; a take more, others", () => {
    const few = MADE.slice(0, 3);
    expect(learnBars(few)).toEqual(learnBars(few));
    expect(learnBars([...few, madeTake("one-drop", 76, 16, 1)])).not.toEqual(learnBars(few));
  });

  test("takes shorter than two bars teach nothing", () => {
    const few = MADE.slice(0, 3);
    expect(learnBars([...few, madeTake("one-drop", 76, 1, 1)])).toEqual(learnBars(few));
  });
});
