import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  type Demonstration,
  demonstrate,
  demonstratedBeats,
  FILLS,
  rubato,
  STYLES,
  suddenChange,
} from "../../../engine/catalogue/index.ts";
import type { Hit } from "../../../engine/kit/index.ts";
import { timeOfBeat } from "../../../engine/listening/beatMap.ts";
import { strokesOfHits } from "../../../engine/listening/roles.ts";
import { followPulse, type Stretch } from "../../../engine/listening/tracking.ts";
import { beatsPerBar, fillBars, type Groove, grooveBeats, usualTempo } from "../../../engine/score/index.ts";
import { median, type Seconds, seededChance } from "../../../engine/units/index.ts";
import { played, writtenGrooveOf } from "./played.ts";

/** A performance whose tempo rises evenly by `gain` (a share) from its start to its end. */
function rushing(gain: number) {
  const hits = played(writtenGrooveOf("rock-eighths"), { tempoBpm: 100, bars: 24, spreadMs: 6 });
  const end = hits.at(-1)?.time ?? 1;
  return hits.map((hit) => ({ ...hit, time: hit.time - (gain * hit.time ** 2) / (2 * end) }));
}

interface Performed {
  readonly strokes: ReturnType<typeof strokesOfHits>;
  /** Where the beats truly are. */
  readonly beats: readonly Seconds[];
  readonly tempoBpm: number;
}

/** A person's performance at the usual tempo: 10 ms of spread, some strokes left out, some added. */
function performed(groove: Groove, how: Partial<Demonstration> & { readonly bars: number }): Performed {
  const tempoBpm = usualTempo(groove);
  const playing = { tempoBpm, leanMs: 0, spreadMs: 10, leftOut: 0.02, added: 0.02, ...how };
  const hits = demonstrate(groove, { ...playing, chance: seededChance(4) });
  return {
    strokes: strokesOfHits(hits.map((stroke): Hit => ({ ...stroke, zone: "whole", pad: 0 }))),
    beats: demonstratedBeats(groove, { ...playing, chance: seededChance(4) }),
    tempoBpm,
  };
}

/** The strokes from one moment to another, as a stretch in which the beat lasts so long. */
function stretchOf(
  { strokes }: Performed,
  from: Seconds,
  to: Seconds,
  period: Seconds,
  beatsRound: number,
): Stretch {
  const first = strokes.findIndex(({ time }) => time >= from);
  const after = strokes.findIndex(({ time }) => time > to);
  return { from: first, to: after === -1 ? strokes.length : after, period, beatsRound };
}

/**
 * By how much of a beat each true beat is missed, when the map is laid on those of `laidOn` (from, to): a map says
 * nothing of which of its beats is the first.
 */
function missesOf(take: Performed, stretch: Stretch, laidOn: readonly [number, number]): readonly number[] {
  const map = followPulse(take.strokes, stretch);
  const beatAt = (time: Seconds): number => {
    let [low, high] = [-take.beats.length - 60, take.beats.length + 60];
    while (high - low > 1e-6) {
      const middle = (low + high) / 2;
      if (timeOfBeat(map, middle) < time) low = middle;
      else high = middle;
    }
    return low;
  };
  const ahead = take.beats.map((time, index) => beatAt(time) - index);
  const offset = median(ahead.slice(...laidOn));
  return ahead.map((each) => Math.abs(each - offset));
}

const FIRST: Seconds = 9;
const grooves = STYLES.flatMap(({ id, variants: [groove] }) => (groove ? [{ id, groove }] : []));
/** Every third style: each kind of groove and each metre is among them. */
const some = grooves.filter((_, index) => index % 3 === 0);

describe("following the pulse", () => {
  test.each([0, 0.03, -0.03])("a tempo that changes by %f is followed to the last beat", (gain) => {
    const strokes = strokesOfHits(rushing(gain));
    const to = strokes.findIndex(({ time }) => time > 8);
    const map = followPulse(strokes, { from: 0, to, period: 0.6 * (1 - gain / 8), beatsRound: 4 });
    const last = map.beats.at(-1) ?? 0;
    // 24 bars of 4 beats, the last eighth of which is struck half a beat before the end.
    expect(Math.abs(last - 95.5)).toBeLessThan(0.12);
  });

  test("a stroke's beat comes at its own moment, and time never runs back", () => {
    const strokes = strokesOfHits(rushing(0.02));
    const map = followPulse(strokes, { from: 0, to: 60, period: 0.6, beatsRound: 4 });
    map.beats.forEach((beat, index) => {
      // The strokes of a unison may share one beat, a few milliseconds apart.
      expect(Math.abs(timeOfBeat(map, beat) - (map.times[index] ?? Number.NaN))).toBeLessThan(0.03);
    });
    const anyBeat = fc.double({ min: -4, max: 100, noNaN: true });
    fc.assert(
      fc.property(anyBeat, anyBeat, (a, b) => {
        expect(timeOfBeat(map, Math.max(a, b))).toBeGreaterThanOrEqual(timeOfBeat(map, Math.min(a, b)));
      }),
    );
    for (let index = 1; index < map.beats.length; index += 1) {
      expect(map.beats[index] ?? 0).toBeGreaterThanOrEqual(map.beats[index - 1] ?? 0);
    }
  });

  test.each(grooves)("$id, held: the map stays within a twentieth of a beat", ({ groove }) => {
    const take = performed(groove, { bars: 16 });
    const stretch = stretchOf(take, 0, FIRST, 60 / take.tempoBpm, grooveBeats(groove));
    const misses = missesOf(take, stretch, [0, take.beats.length]);
    expect(Math.max(...misses)).toBeLessThan(0.05);
  });

  test.each(some)("$id from the middle, as from the beginning", ({ groove }) => {
    const take = performed(groove, { bars: 12 });
    const [from, to] = [take.beats[2 * beatsPerBar(groove.metre)] ?? 0, take.beats.at(-1) ?? 0];
    const stretch = stretchOf(
      take,
      (from + to) / 3,
      (from + to) / 3 + FIRST,
      60 / take.tempoBpm,
      grooveBeats(groove),
    );
    const misses = missesOf(take, stretch, [0, take.beats.length]);
    expect(Math.max(...misses)).toBeLessThan(0.05);
  });
});

describe("a sudden change of tempo", () => {
  const ratios = [0.75, 0.83, 0.9, 1.1, 1.17, 1.25];
  test.each(
    some.flatMap(({ id, groove }, index) => {
      const ratio = ratios[index % ratios.length] ?? 1;
      return [ratio, ratios[(index + 3) % ratios.length] ?? 1].map((by) => ({ id, groove, ratio: by }));
    }),
  )("$id, to $ratio of it: followed from two bars after", ({ groove, ratio }) => {
    const bar = beatsPerBar(groove.metre);
    const take = performed(groove, { bars: 16, tempoCourse: suddenChange(8 * bar, ratio) });
    const end = take.beats[8 * bar] ?? 0;
    const stretch = stretchOf(take, 0, Math.min(FIRST, end - 0.5), 60 / take.tempoBpm, grooveBeats(groove));
    const misses = missesOf(take, stretch, [0, 8 * bar]);
    expect(Math.max(...misses.slice(10 * bar))).toBeLessThan(0.1);
    expect(Math.max(...misses.slice(0, 7 * bar))).toBeLessThan(0.05);
  });

  test("before the stretch is followed backward alike", () => {
    const groove = writtenGrooveOf("rock-eighths");
    const take = performed(groove, { bars: 16, tempoCourse: suddenChange(32, 1.2) });
    const stretch = stretchOf(take, take.beats[40] ?? 0, take.beats[60] ?? 0, 60 / take.tempoBpm / 1.2, 4);
    const misses = missesOf(take, stretch, [32, 64]);
    expect(Math.max(...misses.slice(0, 24))).toBeLessThan(0.1);
  });
});

describe("a tempo that breathes", () => {
  test.each(some)(
    "$id, a tenth to and fro over eight bars, is followed from where it stands still",
    ({ groove }) => {
      const bars = Math.round(48 / beatsPerBar(groove.metre));
      const take = performed(groove, { bars, tempoCourse: rubato(0.1, 32) });
      // A quarter of the way the tempo is at its quickest, and stands still for a moment.
      const period = 60 / take.tempoBpm / 1.09;
      const stretch = stretchOf(
        take,
        take.beats[5] ?? 0,
        take.beats[11] ?? 0,
        period,
        beatsPerBar(groove.metre),
      );
      const misses = missesOf(take, stretch, [0, take.beats.length]);
      const near = (0.07 * take.tempoBpm) / 60;
      expect(misses.filter((miss) => miss < near).length / misses.length).toBeGreaterThan(0.9);
    },
  );

  test("a quarter to and fro over twelve bars is still followed, over most of most takes", () => {
    const shares = some.map(({ groove }) => {
      const bars = Math.round(64 / beatsPerBar(groove.metre));
      const take = performed(groove, { bars, tempoCourse: rubato(0.25, 48) });
      const [from, to] = [take.beats[8] ?? 0, take.beats[16] ?? 0];
      const stretch = stretchOf(take, from, to, (to - from) / 8, beatsPerBar(groove.metre));
      const misses = missesOf(take, stretch, [0, take.beats.length]);
      return misses.filter((miss) => miss < (0.07 * take.tempoBpm) / 60).length / misses.length;
    });
    expect(shares.reduce((sum, share) => sum + share, 0) / shares.length).toBeGreaterThan(0.9);
  });
});

describe("fills", () => {
  const inFour = FILLS.filter(
    (fill) => fill.metre.numerator === 4 && fill.metre.denominator === 4 && fillBars(fill) === 1,
  );
  const four = some.filter(({ groove: { metre } }) => metre.numerator === 4 && metre.denominator === 4);
  test.each(
    four.flatMap(({ id, groove }, index) => {
      const fill = inFour[(7 * index) % inFour.length];
      return fill ? [{ id, groove, fill, name: fill.id }] : [];
    }),
  )("$id with $name in bars 4 and 8: the beat is not lost", ({ groove, fill }) => {
    const fills = [4, 8].map((bar) => ({ fill, bar, thenCrash: true }));
    const take = performed(groove, { bars: 12, fills });
    const stretch = stretchOf(take, 0, FIRST, 60 / take.tempoBpm, grooveBeats(groove));
    const misses = missesOf(take, stretch, [0, take.beats.length]);
    expect(Math.max(...misses)).toBeLessThan(0.08);
  });

  test("there are fills to try", () => {
    expect(inFour.length).toBeGreaterThan(5);
    expect(four.length).toBeGreaterThan(10);
  });
});

describe("a map of beats", () => {
  test("goes on in a straight line beyond its ends", () => {
    const map = { times: Float64Array.of(10, 11, 11.5), beats: Float64Array.of(0, 2, 3) };
    expect(timeOfBeat(map, -1)).toBeCloseTo(9.5, 9);
    expect(timeOfBeat(map, 2.5)).toBeCloseTo(11.25, 9);
    expect(timeOfBeat(map, 4)).toBeCloseTo(12, 9);
  });

  test("of one stroke alone has a beat a second", () => {
    const map = { times: Float64Array.of(10), beats: Float64Array.of(3) };
    expect(timeOfBeat(map, 5)).toBe(12);
  });

  test("does not depend on when the take began", () => {
    const strokes = strokesOfHits(rushing(0.02));
    const stretch = { from: 20, to: 90, period: 0.6, beatsRound: 4 };
    const later = strokes.map((stroke) => ({ ...stroke, time: stroke.time + 512 }));
    const { beats } = followPulse(strokes, stretch);
    followPulse(later, stretch).beats.forEach((beat, index) => {
      expect(beat).toBeCloseTo(beats[index] ?? Number.NaN, 6);
    });
  });
});
