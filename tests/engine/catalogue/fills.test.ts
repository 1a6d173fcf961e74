import { describe, expect, test } from "vitest";
import { FILLS, fillById, grooveById } from "../../../engine/catalogue/index.ts";
import type { Voice } from "../../../engine/kit/index.ts";
import {
  beatsPerBar,
  type Fill,
  fillBars,
  inWholeBars,
  LEVELS,
  type Level,
  metreName,
  type Note,
  parseFill,
  performed,
  printFill,
  startsOnBeat,
  usualTempo,
} from "../../../engine/score/index.ts";
import { toNumber } from "../../../engine/units/index.ts";

const FEET = new Set<Voice>(["kick", "hi-hat-pedal"]);
const byHand = ({ voice }: Note): boolean => !FEET.has(voice);

function ofLevel(level: Level): readonly Fill[] {
  return FILLS.filter((fill) => fill.level === level);
}

/** Shortest time in milliseconds between two moments at which strokes such as these are played, at a tempo. */
function shortestGapMs(fill: Fill, tempoBpm: number, such: (note: Note) => boolean): number {
  const times = performed(inWholeBars(fill), { tempoBpm, bars: fillBars(fill) })
    .filter(({ note }) => such(note))
    .map(({ time }) => time * 1000);
  const gaps = times.slice(1).map((time, index) => time - (times[index] ?? 0));
  return Math.min(...gaps.filter((gap) => gap > 1e-6), Number.POSITIVE_INFINITY);
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

describe("the stock of fills", () => {
  test("is wide: thirty-six or more, nine or more a level, of every length and kind", () => {
    expect(FILLS.length).toBeGreaterThanOrEqual(36);
    for (const level of LEVELS) expect(ofLevel(level).length, level).toBeGreaterThanOrEqual(9);
    const lengths = new Set(FILLS.map(({ beats }) => beats));
    for (const beats of [1, 2, 3, 4, 5, 8]) expect(lengths).toContain(beats);
    const metres = new Set(FILLS.map(({ metre }) => metreName(metre)));
    for (const metre of ["4/4", "3/4", "12/8", "6/8"]) expect(metres).toContain(metre);
    expect(FILLS.filter(({ metre }) => metreName(metre) === "4/4").length).toBeGreaterThan(FILLS.length / 2);
    expect(FILLS.filter(({ feel }) => feel.kind === "swung").length).toBeGreaterThanOrEqual(3);
    const notes = FILLS.flatMap((fill) => fill.notes);
    for (const ornament of ["flam", "drag"])
      expect(notes.some((note) => note.ornament === ornament)).toBe(true);
    for (const dynamic of ["ghost", "accent"])
      expect(notes.some((note) => note.dynamic === dynamic)).toBe(true);
  });

  test("no id or name is given twice, nor an id a groove has; each id finds its own", () => {
    expect(new Set(FILLS.map(({ id }) => id)).size).toBe(FILLS.length);
    expect(new Set(FILLS.map(({ name }) => name)).size).toBe(FILLS.length);
    for (const fill of FILLS) {
      expect(fillById(fill.id)).toBe(fill);
      expect(grooveById(fill.id)).toBeUndefined();
    }
    expect(fillById("nothing")).toBeUndefined();
  });

  test("no fill is another one at the same grid, not even with other dynamics", () => {
    const written = FILLS.map(({ metre, feel, beats, notes }) =>
      JSON.stringify([
        metre,
        feel,
        beats,
        notes
          .map(({ position, voice, ornament }) => `${toNumber(position)} ${voice} ${ornament ?? ""}`)
          .sort(),
      ]),
    );
    expect(new Set(written).size).toBe(FILLS.length);
  });
});

describe.each(FILLS)("$id", (fill) => {
  test("begins in its first beat, ends before the one, and is one beat to two bars long", () => {
    const inBar = beatsPerBar(fill.metre);
    expect(fill.beats).toBeGreaterThanOrEqual(1);
    expect(fill.beats).toBeLessThanOrEqual(2 * inBar);
    expect((startsOnBeat(fill) - 1 + fill.beats) % inBar).toBe(0);
    const places = fill.notes.map(({ position }) => toNumber(position));
    expect(places[0]).toBeGreaterThanOrEqual(0);
    expect(places[0]).toBeLessThan(1);
    expect(places.at(-1)).toBeLessThan(fill.beats);
    expect(places.at(-1)).toBeGreaterThanOrEqual(fill.beats - 1);
  });

  test("its name says how long it is and nothing but words", () => {
    expect(fill.name).toMatch(/^[A-Z][a-z ,-]+$/);
    expect(fill.name.length).toBeLessThanOrEqual(80);
  });

  test("two hands and two feet can play it, up to its highest tempo", () => {
    for (const voice of fill.voices) expect(fill.notes.some((note) => note.voice === voice)).toBe(true);
    for (const { position } of fill.notes) {
      const together = fill.notes.filter((note) => toNumber(note.position) === toNumber(position));
      const hands = together.filter(byHand);
      expect(new Set(together.map(({ voice }) => voice)).size).toBe(together.length);
      // The grace strokes of a flam or a drag are the other hand's.
      expect(hands.length).toBeLessThanOrEqual(hands.some(({ ornament }) => ornament) ? 1 : 2);
    }
    const { low, high } = fill.tempoBpm;
    expect(high / low).toBeGreaterThan(1.3);
    expect(high / low).toBeLessThan(2.5);
    // One foot on the kick: sixteenths at 115 a minute are 130 ms.
    expect(shortestGapMs(fill, high, ({ voice }) => voice === "kick")).toBeGreaterThan(130);
  });

  test("where hands are named, none strikes two drums at once nor more than twice running", () => {
    const named = fill.notes.filter(({ hand }) => hand !== undefined);
    const moments = named.map(({ hand, position }) => `${hand} ${toNumber(position)}`);
    expect(new Set(moments).size).toBe(named.length);
    named.forEach(({ hand }, index) => {
      expect(hand === named[index - 1]?.hand && hand === named[index - 2]?.hand, `${index}`).toBe(false);
    });
  });

  test("is printed and read back", () => {
    expect(parseFill(printFill(fill))).toStrictEqual(fill);
  });
});

describe("the levels", () => {
  /** The quickest two strokes by hand at the highest tempo: sixteenths at 100, at 120, sixteenth triplets, thirty-seconds. */
  test.each([
    { level: "first-year", leastMs: 145 },
    { level: "second-year", leastMs: 120 },
    { level: "steady", leastMs: 95 },
    { level: "working", leastMs: 70 },
  ] as const)("$level: strokes are never nearer than $leastMs ms", ({ level, leastMs }) => {
    for (const fill of ofLevel(level)) {
      expect(shortestGapMs(fill, fill.tempoBpm.high, byHand), fill.id).toBeGreaterThanOrEqual(leastMs);
    }
  });

  test("each asks for more strokes a second than the one before", () => {
    const densities = LEVELS.map((level) =>
      mean(ofLevel(level).map((fill) => (fill.notes.length / fill.beats) * (usualTempo(fill) / 60))),
    );
    expect(densities).toEqual([...densities].sort((a, b) => a - b));
    expect(densities[3]).toBeGreaterThan(1.5 * (densities[0] ?? 0));
  });

  test("the first year has neither ornaments nor ghosts nor swing, nor the kick alone", () => {
    for (const { feel, notes, id } of ofLevel("first-year")) {
      expect(feel.kind, id).toBe("straight");
      expect(
        notes.every(({ ornament, dynamic }) => !ornament && dynamic === "plain"),
        id,
      ).toBe(true);
      for (const kick of notes.filter(({ voice }) => voice === "kick")) {
        expect(
          notes.some((note) => byHand(note) && toNumber(note.position) === toNumber(kick.position)),
        ).toBe(true);
      }
    }
  });
});
