import { describe, expect, test } from "vitest";
import { grooveById } from "../../../../engine/catalogue/index.ts";
import { clickFromEntry } from "../../../../engine/rounds/callAStyle/cameIn.ts";
import { judgeTake, type TakeClick } from "../../../../engine/rounds/index.ts";
import { FOUR_FOUR, type Metre, type PlayedClick, plainClick } from "../../../../engine/score/index.ts";
import { steadily } from "../../listening/played.ts";

/** A bar of two seconds, a beat of half a second. */
const click: PlayedClick = { way: plainClick(FOUR_FOUR), tempoBpm: 120, from: 30, countInBars: 0 };
const TWO_FOUR: Metre = { numerator: 2, denominator: 4 };

function fromWith(
  firstAt: number,
  { of = click, metre = FOUR_FOUR }: { of?: TakeClick; metre?: Metre } = {},
): number {
  const hit = { time: firstAt, voice: "kick", velocity: 0.7, zone: "whole", pad: 0 } as const;
  return clickFromEntry(of, [hit, { ...hit, time: firstAt + 7 }], metre).from;
}

describe("the bar a player came in on", () => {
  test.each([
    ["on the first beat that counts", 30, 30],
    ["a little ahead of it", 29.96, 30],
    ["two bars later", 34, 34],
    ["two bars later, a little ahead", 33.97, 34],
    ["two bars later, a little behind", 34.03, 34],
    ["two bars and a beat later: a beat late in the third", 34.5, 34],
    ["with an upbeat of an eighth", 33.75, 34],
    ["with an upbeat of a beat, a little early", 33.47, 34],
  ])("%s", (_, firstAt, from) => {
    expect(fromWith(firstAt)).toBe(from);
  });

  test("is a bar of the groove", () => {
    expect(fromWith(33, { metre: TWO_FOUR })).toBe(33);
  });

  test("after a count-in is the first, however late", () => {
    expect(fromWith(34, { of: { ...click, countInBars: 1 } })).toBe(30);
  });

  test("is the first where it is not known whether there was a count-in, and where nothing was struck", () => {
    expect(fromWith(34, { of: { tempoBpm: 120, from: 30 } })).toBe(30);
    expect(clickFromEntry(click, [], FOUR_FOUR)).toBe(click);
  });
});

describe("a take begun two bars into the click", () => {
  const groove = grooveById("rock-eighths");
  if (!groove) throw new Error("The catalogue has no rock-eighths.");
  const hits = steadily(groove, { tempoBpm: 120, bars: 7, spreadMs: 4 }).map((hit) => ({
    ...hit,
    time: 34.018 + hit.time,
  }));

  test("has no late entry and nothing left out where it was not counted in", () => {
    const { click: known, compared } = judgeTake({ hits, styleId: "rock-eighths", click });
    expect(known).toEqual({ ...click, from: 34 });
    expect(compared?.report.form.slips).toEqual([]);
    expect(compared?.report.missed).toEqual([]);
    expect(compared?.report.perBar).toHaveLength(7);
    expect(Math.abs((compared?.report.leanMs ?? 0) - 18)).toBeLessThan(2);
  });

  test("came in late where it was", () => {
    const { compared } = judgeTake({ hits, styleId: "rock-eighths", click: { ...click, countInBars: 1 } });
    expect(compared?.report.form.slips).toMatchObject([{ kind: "entry", byBeats: 8 }]);
  });

  test("has the silences that came after it, counted from where it began", () => {
    const way = { ...click.way, gaps: { kind: "regular", sounding: 2, silent: 1 } } as const;
    const { compared } = judgeTake({ hits, styleId: "rock-eighths", click: { ...click, way } });
    // Bars 3, 6 and 9 of the click are silent: the player came in on the third, and was over with the ninth.
    expect(compared?.gapDrifts.map(({ bar, bars }) => [bar, bars])).toEqual([[4, 1]]);
    expect(Math.abs(compared?.gapDrifts[0]?.movedMs ?? 99)).toBeLessThan(10);
  });
});
