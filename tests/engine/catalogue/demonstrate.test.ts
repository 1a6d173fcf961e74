import { describe, expect, test } from "vitest";
import { type Demonstration, demonstrate, grooveById, STYLES } from "../../../engine/catalogue/index.ts";
import { DYNAMIC_VELOCITY, type Groove, parseGrid, performed } from "../../../engine/score/index.ts";
import { seededChance } from "../../../engine/units/index.ts";

const SEEDS = [1, 2, 3, 4, 5];

function groove(id: string): Groove {
  const found = grooveById(id);
  if (!found) throw new Error(`The stock has no ${id}.`);
  return found;
}

const ROCK = groove("rock-eighths");

function plain(how: Partial<Demonstration> & { readonly seed: number }): Demonstration {
  const { seed, ...asked } = how;
  const none = { leanMs: 0, spreadMs: 0, leftOut: 0, added: 0 };
  return { tempoBpm: 100, bars: 200, ...none, chance: seededChance(seed), ...asked };
}

function moments(values: readonly number[]): { mean: number; sd: number } {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return { mean, sd: Math.sqrt(squares / (values.length - 1)) };
}

describe("repeatable", () => {
  test.each(STYLES.flatMap(({ variants }) => variants))("$id with the same seed", (each) => {
    const how = { leanMs: 5, spreadMs: 12, leftOut: 0.1, added: 0.1, bars: 8 };
    const first = demonstrate(each, plain({ ...how, seed: 3 }));
    expect(demonstrate(each, plain({ ...how, seed: 3 }))).toEqual(first);
    expect(demonstrate(each, plain({ ...how, seed: 4 }))).not.toEqual(first);
  });
});

test("a seed goes on giving the strokes it has always given", () => {
  const how = { bars: 1, leanMs: 4, spreadMs: 9, leftOut: 0.1, added: 0.1, seed: 7 };
  expect(demonstrate(ROCK, plain(how)).slice(0, 4)).toEqual(
    [
      { time: 0, voice: "kick", velocity: 0.74372098618625 },
      { time: 0.013788925657489752, voice: "hi-hat-closed", velocity: 0.5796803414274998 },
      { time: 0.31239218089287507, voice: "hi-hat-closed", velocity: 0.6547887138452705 },
      { time: 0.6032584625094063, voice: "hi-hat-closed", velocity: 0.6523939704546637 },
    ].map(({ time, voice, velocity }) => ({
      time: expect.closeTo(time, 9),
      voice,
      velocity: expect.closeTo(velocity, 9),
    })),
  );
});

test("with nothing asked for, the strokes are those written, at their times", () => {
  const strokes = demonstrate(ROCK, plain({ seed: 1, bars: 4 }));
  const written = performed(ROCK, { tempoBpm: 100, bars: 4 });
  expect(strokes.map(({ time, voice }) => ({ time, voice }))).toEqual(
    written.map(({ time, note }) => ({ time, voice: note.voice })),
  );
});

describe.each(SEEDS)("seed %s", (seed) => {
  /** Written strokes by their time and voice: the snare alone, two seconds apart, so that no slip is ambiguous. */
  const SNARE = parseGrid("groove: s\nname: S\nmetre: 4/4\ntempo: 60-90\nsnare | .x.x |");
  const written = performed(SNARE, { tempoBpm: 60, bars: 200 });

  test.each([
    { leanMs: -18, spreadMs: 4 },
    { leanMs: 0, spreadMs: 12 },
    { leanMs: 25, spreadMs: 20 },
  ])("lean $leanMs ms and spread $spreadMs ms are what was asked", ({ leanMs, spreadMs }) => {
    const strokes = demonstrate(SNARE, plain({ seed, leanMs, spreadMs, tempoBpm: 60 }));
    const slips = strokes.map(({ time }, index) => (time - (written[index]?.time ?? 0)) * 1000);
    expect(slips.length).toBe(written.length);
    const { mean, sd } = moments(slips);
    // Four standard errors: σ/√n of the mean, σ/√(2n) of the deviation.
    const count = slips.length;
    expect(Math.abs(mean - leanMs)).toBeLessThan((4 * spreadMs) / Math.sqrt(count));
    expect(Math.abs(sd - spreadMs)).toBeLessThan((4 * spreadMs) / Math.sqrt(2 * count));
  });

  test.each([0.05, 0.3, 1])("a share of %s is left out", (leftOut) => {
    const strokes = demonstrate(ROCK, plain({ seed, leftOut }));
    const count = performed(ROCK, { tempoBpm: 100, bars: 200 }).length;
    // Binomial: four standard deviations.
    const allowed = 4 * Math.sqrt(count * leftOut * (1 - leftOut));
    expect(Math.abs(strokes.length - count * (1 - leftOut))).toBeLessThanOrEqual(allowed);
  });

  test.each([0.05, 0.5])("a share of %s is added, anywhere in time, on the groove's own voices", (added) => {
    const count = performed(ROCK, { tempoBpm: 100, bars: 200 }).length;
    const strokes = demonstrate(ROCK, plain({ seed, added, leftOut: 1 }));
    expect(strokes.length).toBe(Math.round(count * added));
    expect(strokes.every(({ voice }) => ROCK.voices.includes(voice))).toBe(true);
    // Even in time: the mean of n even draws over a span has a standard deviation of span / √(12 n).
    const span = performed(ROCK, { tempoBpm: 100, bars: 200 }).at(-1)?.time ?? 0;
    const { mean } = moments(strokes.map(({ time }) => time));
    expect(Math.abs(mean - span / 2)).toBeLessThan((4 * span) / Math.sqrt(12 * strokes.length));
    expect(strokes.every(({ time }) => time >= 0 && time <= span)).toBe(true);
  });

  test("strength follows the dynamics and never leaves its range", () => {
    const samba = groove("samba");
    const strokes = demonstrate(samba, plain({ seed, tempoBpm: 100 }));
    const notes = performed(samba, { tempoBpm: 100, bars: 200 });
    for (const dynamic of ["ghost", "plain", "accent"] as const) {
      const struck = strokes.filter((_, index) => notes[index]?.note.dynamic === dynamic);
      expect(struck.length).toBeGreaterThan(100);
      const { mean, sd } = moments(struck.map(({ velocity }) => velocity));
      expect(Math.abs(mean - DYNAMIC_VELOCITY[dynamic])).toBeLessThan(0.02);
      expect(sd).toBeGreaterThan(0.04);
      expect(sd).toBeLessThan(0.1);
    }
    expect(strokes.every(({ velocity }) => velocity > 0 && velocity <= 1)).toBe(true);
  });

  test("always in order of time, and never before 0", () => {
    const strokes = demonstrate(ROCK, plain({ seed, leanMs: -60, spreadMs: 40, added: 0.2 }));
    expect(strokes[0]?.time).toBe(0);
    strokes.forEach(({ time }, index) => {
      expect(time).toBeGreaterThanOrEqual(strokes[index - 1]?.time ?? 0);
    });
  });
});

test("a flam and a drag are played with their soft strokes before them", () => {
  const ornaments = parseGrid("groove: o\nname: O\nmetre: 4/4\ntempo: 60-90\nsnare | .f.d |");
  const strokes = demonstrate(ornaments, plain({ seed: 1, bars: 1, tempoBpm: 60 }));
  expect(strokes.map(({ time }) => time)).toEqual(
    [0.974, 1, 2.948, 2.974, 3].map((time) => expect.closeTo(time, 9)),
  );
  const loud = strokes.map(({ velocity }) => velocity > 0.42);
  expect(loud).toEqual([false, true, false, false, true]);
});
