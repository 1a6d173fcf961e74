import { describe, expect, test } from "vitest";
import type { Hit } from "../../../engine/kit/index.ts";
import { shippedBackground } from "../../../engine/listening/background.ts";
import { featuresOfBars } from "../../../engine/listening/barFeatures.ts";
import { PLACES_PER_BEAT } from "../../../engine/listening/barModel.ts";
import type { BarHypothesis } from "../../../engine/listening/pulse.ts";
import { usualTempo } from "../../../engine/score/index.ts";
import { pulseAt } from "./hypotheses.ts";
import { played, writtenGrooveOf } from "./played.ts";

const ROCK = writtenGrooveOf("rock-eighths");
const HITS = played(ROCK, { tempoBpm: 120, bars: 8 });

function featuresOf(hits: readonly Hit[], tempoBpm: number, beatsInBar = 4, turn = 0): readonly number[] {
  const pulse = pulseAt(hits, tempoBpm);
  const bar: BarHypothesis = { pulse, beatsInBar, turn, logChance: -7, begins: 0.5 };
  return featuresOfBars([bar])[0] ?? [];
}

/** Numbers of the features in which two bars differ. */
function differing(a: readonly number[], b: readonly number[]): readonly number[] {
  return a.flatMap((value, index) => (Math.abs(value - (b[index] ?? Number.NaN)) < 1e-9 ? [] : [index]));
}

const LENGTHS = [2, 3, 4, 5, 6, 7, 8];
const PLAIN = featuresOf(HITS, 120);

describe("the features of a bar", () => {
  test.each(LENGTHS)("are as many for %i beats as for four, and all are numbers", (beats) => {
    for (const turn of [0, 3, 17, beats * PLACES_PER_BEAT - 1]) {
      const features = featuresOf(HITS, 120, beats, turn);
      expect(features.length).toBe(PLAIN.length);
      expect(features.filter((feature) => !Number.isFinite(feature))).toEqual([]);
    }
  });

  test("are as many as the trees may ask for that were learnt with them", () => {
    const asked = shippedBackground().reading.asked;
    expect(Math.max(...asked)).toBeLessThan(PLAIN.length);
    // Most of them tell something.
    expect(new Set(asked).size).toBeGreaterThan(PLAIN.length / 2);
  });

  test("what belongs to the pulse alone stands at the same numbers whatever the bar", () => {
    const ofPulse = (hits: readonly Hit[], beats: number) => featuresOf(hits, 120, beats);
    const same = LENGTHS.map((beats) => new Set(differing(ofPulse(HITS, beats), PLAIN)));
    const everywhere = PLAIN.map((_, index) => index).filter((index) =>
      same.every((apart) => !apart.has(index)),
    );
    // What grooves in general make of it (given here), the tempo, its square, and how far apart the strokes of five parts are: with the tempo, and each in nine ways.
    expect(everywhere.length).toBeGreaterThanOrEqual(3 + 5 + 5 * 9);
    expect(everywhere.slice(0, 3)).toEqual([0, 1, 2]);
  });

  test("begin with what grooves in general make of it, without what the first stroke says", () => {
    expect(PLAIN[0]).toBe(-7.5);
    expect(PLAIN[1]).toBeCloseTo(Math.log(1.2), 9);
    expect(PLAIN[2]).toBeCloseTo(Math.log(1.2) ** 2, 9);
  });

  test("do not change with the time of day", () => {
    const pulse = (from: number) => {
      const later = HITS.map((hit) => ({ ...hit, time: hit.time + from }));
      return featuresOf(later, 120);
    };
    // Eight bars of two seconds: the same turn again.
    expect(differing(pulse(16), PLAIN)).toEqual([]);
  });

  test("do not change when one is called one a bar later", () => {
    expect(differing(featuresOf(HITS, 120, 4, 4 * PLACES_PER_BEAT), PLAIN)).toEqual([]);
  });

  test("of another tempo differ in what is counted with the tempo only", () => {
    const slower = HITS.map((hit) => ({ ...hit, time: hit.time * 1.2 }));
    const changed = differing(featuresOf(slower, 100), PLAIN);
    expect(changed.slice(0, 2)).toEqual([1, 2]);
    // And the distances of the five parts, which are weighed with the tempo.
    expect(changed.length).toBeLessThanOrEqual(2 + 5);
  });

  test("tell which beat is the one: the bar turned by a beat has others", () => {
    for (const beat of [1, 2, 3]) {
      const turned = featuresOf(HITS, 120, 4, beat * PLACES_PER_BEAT);
      expect(differing(turned, PLAIN).length).toBeGreaterThan(5);
    }
  });

  test("of a bar of three do not tell places of a bar of four", () => {
    const waltz = writtenGrooveOf("jazz-waltz");
    const tempoBpm = usualTempo(waltz);
    const features = featuresOf(played(waltz, { tempoBpm, bars: 8 }), tempoBpm, 3);
    expect(features[3]).toBe(1);
    expect(PLAIN[3]).toBe(0);
    // Two parts at sixteen places, six at eight.
    expect(features.slice(4, 4 + 2 * 16 + 6 * 8)).toEqual(Array(80).fill(0));
    expect(PLAIN.slice(4, 84).filter((feature) => feature > 0).length).toBeGreaterThan(8);
  });
});

describe("places of the bar", () => {
  test("kick and back-beat are told at every sixteenth", () => {
    const kick = PLAIN.slice(4, 20);
    const backBeat = PLAIN.slice(20, 36);
    const struckAt = (row: readonly number[]) => row.flatMap((count, place) => (count > 0.5 ? [place] : []));
    const written = (voice: "kick" | "snare") =>
      ROCK.notes
        .filter((note) => note.voice === voice)
        .map(({ position }) => (4 * position.num) / position.den)
        .filter((place) => place < 16);
    expect(struckAt(kick)).toEqual(written("kick"));
    expect(struckAt(backBeat)).toEqual(written("snare"));
  });
});

/** They stand before loudness (three parts by four beats), the crashes after toms, and the lead. */
const sharesByBeat = (features: readonly number[]): readonly number[] => features.slice(-4 - 12 - 2, -12 - 2);

describe("fills", () => {
  test("end bars: most of what leaves the pattern is on the last beats", () => {
    const toms = Array.from({ length: 8 }, (_, index): Hit => {
      const voice = index < 4 ? "high-tom" : "floor-tom";
      return { time: 15 + index / 8, voice, zone: "head", velocity: 0.8, pad: 0 };
    });
    const withFill = [...HITS.filter(({ time }) => time < 15), ...toms];
    const shares = sharesByBeat(featuresOf(withFill, 120));
    expect(shares.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 3);
    expect((shares[2] ?? 0) + (shares[3] ?? 0)).toBeGreaterThan(0.9);
    const turned = sharesByBeat(featuresOf(withFill, 120, 4, 2 * PLACES_PER_BEAT));
    // The bars at the ends of the take are now half empty, and leave the pattern too.
    expect((turned[0] ?? 0) + (turned[1] ?? 0)).toBeGreaterThan(0.6);
  });

  test("a crash on the one speaks for it, and more after toms", () => {
    const crash = (time: number): Hit => ({ time, voice: "crash-left", zone: "edge", velocity: 0.9, pad: 0 });
    const toms = [3, 3.25, 3.5, 3.75].map((time): Hit => {
      return { time, voice: "floor-tom", zone: "head", velocity: 0.8, pad: 0 };
    });
    const crashed = (...more: readonly Hit[]): number =>
      featuresOf(
        [...HITS, ...more].sort((a, b) => a.time - b.time),
        120,
      ).at(-2) ?? Number.NaN;
    expect(crashed()).toBe(0);
    expect(crashed(crash(4))).toBeGreaterThan(0);
    expect(crashed(crash(5))).toBe(0);
    expect(crashed(...toms, crash(4))).toBeGreaterThan(crashed(crash(4)));
    expect(crashed(...toms)).toBeGreaterThan(0);
    expect(crashed(...toms)).toBeLessThan(crashed(crash(4)));
  });
});

test("end with how clearly the strokes lie on the pulse and its octaves", () => {
  const bars = [120, 60, 90].map((tempoBpm): BarHypothesis => {
    const pulse = pulseAt(HITS, tempoBpm);
    return { pulse, beatsInBar: 4, turn: 0, logChance: -tempoBpm, begins: 0 };
  });
  expect(featuresOfBars(bars).map((features) => features.at(-1))).toEqual([20, 20, -20]);
});
