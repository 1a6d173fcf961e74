import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  demonstrate,
  fillById,
  type Orchestration,
  type PlacedFill,
  STYLES,
} from "../../../engine/catalogue/index.ts";
import type { Hit, Voice } from "../../../engine/kit/index.ts";
import { catalogueStock, type Heard, type HeardFill, hear } from "../../../engine/listening/index.ts";
import { beatsPerBar, type Fill, fillBars, usualTempo } from "../../../engine/score/index.ts";
import { seededChance } from "../../../engine/units/index.ts";
import { played, writtenGrooveOf } from "./played.ts";

const stock = catalogueStock(STYLES);
const BARS = 8;

function fillOf(id: string): Fill {
  const fill = fillById(id);
  if (!fill) throw new Error(`The catalogue has no fill ${id}.`);
  return fill;
}

function withFills(
  grooveId: string,
  fills: readonly PlacedFill[],
  how: { readonly tempoBpm: number; readonly seed?: number; readonly orchestration?: Orchestration },
): readonly Hit[] {
  const { tempoBpm, seed = 1, orchestration } = how;
  const strokes = demonstrate(writtenGrooveOf(grooveId), {
    ...{ tempoBpm, bars: BARS, leanMs: 5, spreadMs: 10, leftOut: 0.02, added: 0.02 },
    fills,
    chance: seededChance(seed),
    ...(orchestration ? { orchestration } : {}),
  });
  return strokes.map((stroke): Hit => ({ ...stroke, zone: "whole", pad: 0 }));
}

function heard(hits: readonly Hit[], among = stock): Heard {
  const hearing = hear(hits, among);
  if (hearing.kind !== "heard") throw new Error(`Nothing was heard: ${hearing.reason}.`);
  return hearing;
}

const told = ({ bar, beats, id }: HeardFill): string => `bar ${bar}, ${beats} beats, ${id ?? "?"}`;

describe("a fill in a groove", () => {
  test.each([
    { groove: "rock-eighths", fill: "sixteenths-snare-floor", bar: 4, tempoBpm: 90 },
    { groove: "rock-eighths", fill: "bar-of-eighths", bar: 8, tempoBpm: 110 },
    { groove: "rock-sixteenths", fill: "hands-then-kick", bar: 4, tempoBpm: 88 },
    { groove: "shuffle", fill: "swung-long-short", bar: 4, tempoBpm: 120 },
    { groove: "bossa-nova", fill: "three-beats-of-eighths", bar: 8, tempoBpm: 130 },
    { groove: "waltz", fill: "bar-of-quarters-in-three", bar: 4, tempoBpm: 110 },
    { groove: "twelve-eight-blues", fill: "two-beats-in-twelve-eight", bar: 4, tempoBpm: 64 },
    { groove: "songo", fill: "bar-of-sixteenths", bar: 8, tempoBpm: 92 },
    { groove: "rock-quarters", fill: "two-bars-building", bar: 3, tempoBpm: 100 },
  ])(
    "$fill in bar $bar of $groove: from where to where, and which",
    ({ groove, fill: id, bar, tempoBpm }) => {
      const fill = fillOf(id);
      const hearing = heard(withFills(groove, [{ fill, bar, thenCrash: true }], { tempoBpm }));
      expect(hearing.fills.map(told)).toEqual([`bar ${bar}, ${fill.beats} beats, ${id}`]);
      const [only] = hearing.fills;
      const beat = 60 / tempoBpm;
      const end = (bar - 1 + fillBars(fill)) * beatsPerBar(fill.metre) * beat;
      expect(Math.abs((only?.from ?? 0) - (end - fill.beats * beat))).toBeLessThan(0.05);
      expect(Math.abs((only?.to ?? 0) - end)).toBeLessThan(0.05);
      expect(only?.name).toBe(fill.name);
      expect(only?.confidence).toBeGreaterThan(0.9);
    },
  );

  test("two fills in one take", () => {
    const fills = ["bar-of-triplets", "eighth-and-two-sixteenths"].map((id, index) => ({
      fill: fillOf(id),
      bar: 4 * (index + 1),
    }));
    expect(heard(withFills("rock-eighths", fills, { tempoBpm: 100 })).fills.map(told)).toEqual([
      "bar 4, 4 beats, bar-of-triplets",
      "bar 8, 2 beats, eighth-and-two-sixteenths",
    ]);
  });

  test("on other toms than written it is the same fill", () => {
    const other: Partial<Record<Voice, Voice>> = { "floor-tom": "mid-tom", "mid-tom": "high-tom" };
    const fill = fillOf("two-sixteenths-and-an-eighth");
    const hits = withFills("rock-eighths", [{ fill, bar: 4 }], { tempoBpm: 96 });
    const moved = hits.map((hit) => ({ ...hit, voice: other[hit.voice] ?? hit.voice }));
    expect(heard(moved).fills.map(told)).toEqual([`bar 4, 4 beats, ${fill.id}`]);
  });

  test("with a stroke lost it is the same fill", () => {
    const fill = fillOf("bar-of-sixteenths");
    const hits = withFills("rock-eighths", [{ fill, bar: 4 }], { tempoBpm: 96 });
    const beat = 60 / 96;
    const lost = hits.filter(({ time }) => Math.abs(time - 13.25 * beat) > 0.05);
    expect(lost.length).toBe(hits.length - 1);
    expect(heard(lost).fills.map(told)).toEqual([`bar 4, 4 beats, ${fill.id}`]);
  });

  test("that nobody wrote is found and not named", () => {
    const fill = fillOf("bar-of-sixteenths");
    const beat = 60 / 100;
    const groove = withFills("rock-eighths", [], { tempoBpm: 100 });
    const own = [12, 12.25, 12.75, 13.25, 13.5, 14, 14.25, 14.5, 15, 15.5, 15.75].map(
      (at, index): Hit => ({
        time: at * beat,
        voice: ["floor-tom", "snare", "high-tom", "crash-left"][index % 4] as Voice,
        zone: "whole",
        velocity: 0.8,
        pad: 0,
      }),
    );
    const [from, to] = [12 * beat - 0.1, 16 * beat - 0.1];
    const hits = [...groove.filter(({ time }) => time < from || time > to), ...own];
    const hearing = heard(hits.sort((a, b) => a.time - b.time));
    expect(hearing.fills.map(({ bar, beats }) => [bar, beats])).toEqual([[4, fill.beats]]);
    expect(hearing.fills[0]).not.toHaveProperty("id");
    expect(hearing.fills[0]).not.toHaveProperty("name");
  });

  test("is found where no groove is known, from what the take itself usually does", () => {
    const fill = fillOf("sixteenths-down-the-toms");
    const hits = withFills("rock-eighths", [{ fill, bar: 4 }], { tempoBpm: 90 });
    const hearing = heard(hits, { ...stock, grooves: [] });
    expect(hearing.known).toBe(false);
    expect(hearing.fills.map(told)).toEqual([`bar 4, 2 beats, ${fill.id}`]);
  });
});

describe("no fill", () => {
  test.each(STYLES.flatMap(({ variants }) => variants.map((groove) => ({ groove, id: groove.id }))))(
    "in $id played plainly",
    ({ groove }) => {
      const how = { tempoBpm: usualTempo(groove), bars: BARS, spreadMs: 10, leftOut: 0.02, added: 0.02 };
      expect(heard(played(groove, { ...how, chance: seededChance(11) })).fills).toEqual([]);
    },
  );

  test("in a beat of silence, nor in a crash alone", () => {
    const beat = 60 / 100;
    const plain = withFills("rock-eighths", [], { tempoBpm: 100 });
    const silent = plain.filter(({ time }) => time < 14.9 * beat || time > 15.9 * beat);
    const crash: Hit = { time: 16 * beat, voice: "crash-left", zone: "whole", velocity: 0.9, pad: 0 };
    const hits = [...silent, crash].sort((a, b) => a.time - b.time);
    expect(heard(hits).fills).toEqual([]);
  });
});

test("whatever is struck, fills are in order, apart, within the take, and no longer than two bars", () => {
  const voices: readonly Voice[] = ["kick", "snare", "hi-hat-closed", "high-tom", "floor-tom", "crash-left"];
  const anyHit = fc.record({
    step: fc.integer({ min: 0, max: 160 }),
    voice: fc.constantFrom(...voices),
    velocity: fc.double({ min: 0.1, max: 1, noNaN: true }),
  });
  const groove = played(writtenGrooveOf("rock-eighths"), { tempoBpm: 120, bars: BARS, spreadMs: 8 });
  let found = 0;
  fc.assert(
    fc.property(fc.array(anyHit, { minLength: 4, maxLength: 60 }), fc.boolean(), (strokes, inGroove) => {
      const own = strokes.map(
        ({ step, ...rest }): Hit => ({ ...rest, time: step / 8, zone: "whole", pad: 0 }),
      );
      const hits = [...own, ...(inGroove ? groove : [])].sort((a, b) => a.time - b.time);
      const hearing = hear(hits, stock);
      if (hearing.kind !== "heard") return;
      let before = hearing.span.from - 1e-9;
      for (const { from, to, bar, beats, confidence } of hearing.fills) {
        found += 1;
        expect(from).toBeGreaterThanOrEqual(before);
        expect(to).toBeGreaterThan(from);
        expect(to).toBeLessThanOrEqual(hearing.span.to);
        expect(bar).toBeGreaterThanOrEqual(1);
        expect(beats).toBeGreaterThanOrEqual(1);
        expect(beats).toBeLessThanOrEqual(2 * beatsPerBar(hearing.pulse.metre));
        expect(confidence).toBeGreaterThan(0);
        expect(confidence).toBeLessThanOrEqual(1);
        before = to;
      }
    }),
    { numRuns: 60, seed: 4 },
  );
  expect(found).toBeGreaterThan(0);
});
