import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { STYLES } from "../../../engine/catalogue/index.ts";
import type { Hit } from "../../../engine/kit/index.ts";
import { shippedBackground } from "../../../engine/listening/background.ts";
import { PLACES_PER_BEAT } from "../../../engine/listening/barModel.ts";
import {
  barHypotheses,
  beginningPrior,
  clickPulse,
  type PulseHypothesis,
  pulseHypotheses,
  rootPulses,
} from "../../../engine/listening/pulse.ts";
import { strokesOfHits } from "../../../engine/listening/roles.ts";
import { type Groove, usualTempo } from "../../../engine/score/index.ts";
import { seededChance } from "../../../engine/units/index.ts";
import { played, writtenGrooveOf } from "./played.ts";

const general = shippedBackground();

/** Eight bars that begin with a downbeat at time 0. */
function take(groove: Groove, tempoBpm = usualTempo(groove)): readonly Hit[] {
  return played(groove, { tempoBpm, bars: 8, spreadMs: 8, chance: seededChance(3) });
}

const pulsesOf = (hits: readonly Hit[]): readonly PulseHypothesis[] =>
  pulseHypotheses(strokesOfHits(hits), general);

/** The pulse of this tempo, to a part in a hundred. */
function ofTempo(pulses: readonly PulseHypothesis[], tempoBpm: number): PulseHypothesis | undefined {
  return pulses.find(({ beatSeconds }) => Math.abs(Math.log((beatSeconds * tempoBpm) / 60)) < 0.01);
}

/** Where in the pulse's own beat the true beats fall, in places; the take begins with a beat at time 0. */
function placeOfBeat({ map, beatSeconds }: PulseHypothesis, tempoBpm: number): number {
  const middle = Math.floor(map.times.length / 2);
  const time = map.times[middle] ?? 0;
  const nearest = (Math.round((time * tempoBpm) / 60) * 60) / tempoBpm;
  const beat = (map.beats[middle] ?? 0) + (nearest - time) / beatSeconds;
  return (beat - Math.floor(beat)) * PLACES_PER_BEAT;
}

function placesApart(a: number, b: number): number {
  const apart = Math.abs(a - b) % PLACES_PER_BEAT;
  return Math.min(apart, PLACES_PER_BEAT - apart);
}

describe("the pulses of a take", () => {
  const variants = STYLES.flatMap(({ variants }) => variants).map((groove) => ({ id: groove.id, groove }));
  test.each(variants)("$id: the felt beat is among them, and its place among those tried", ({ groove }) => {
    const tempoBpm = usualTempo(groove);
    const pulse = ofTempo(pulsesOf(take(groove)), tempoBpm);
    if (!pulse) throw new Error(`There is no pulse of ${tempoBpm} a minute.`);
    const truth = placeOfBeat(pulse, tempoBpm);
    expect(Math.min(...pulse.phases.map((phase) => placesApart(phase, truth)))).toBeLessThan(1);
  });

  const groove = writtenGrooveOf("bossa-nova");
  const hits = take(groove);
  const pulses = pulsesOf(hits);

  test("are no two of one tempo, none slower than 37 or faster than 240 a minute", () => {
    expect(pulses.length).toBeGreaterThan(2);
    const beats = pulses.map(({ beatSeconds }) => beatSeconds).sort((a, b) => a - b);
    beats.forEach((seconds, index) => {
      expect(60 / seconds).toBeGreaterThan(36.9);
      expect(60 / seconds).toBeLessThan(240.1);
      if (index > 0) expect(Math.log(seconds / (beats[index - 1] ?? 0))).toBeGreaterThan(0.006);
    });
  });

  test("few places of the beat are tried, no two of them neighbours", () => {
    for (const { phases } of pulses) {
      expect(phases.length).toBeGreaterThan(0);
      expect(phases.length).toBeLessThanOrEqual(4);
      phases.forEach((phase, index) => {
        for (const other of phases.slice(0, index))
          expect(placesApart(phase, other)).toBeGreaterThanOrEqual(2);
      });
    }
  });

  test("all turns tried are each beat of the bar at each of those places", () => {
    for (const pulse of pulses) {
      const turns = barHypotheses(pulse, general).map(({ beatsInBar, turn }) => `${beatsInBar} ${turn}`);
      const expected = general.beats.flatMap((beatsInBar) =>
        pulse.phases.flatMap((phase) =>
          Array.from({ length: beatsInBar }, (_, beat) => `${beatsInBar} ${phase + beat * PLACES_PER_BEAT}`),
        ),
      );
      expect(turns).toEqual(expected);
      expect(new Set(turns).size).toBe(turns.length);
    }
  });

  test("do not depend on when the take began, nor on the order of strikes of one moment", () => {
    const later = pulsesOf(hits.map((hit) => ({ ...hit, time: hit.time + 4096 })));
    expect(later.map(({ phases }) => phases)).toEqual(pulses.map(({ phases }) => phases));
    later.forEach(({ beatSeconds }, index) => {
      expect(beatSeconds).toBeCloseTo(pulses[index]?.beatSeconds ?? Number.NaN, 9);
    });
    const quantised = hits.map((hit) => ({ ...hit, time: Math.round(hit.time * 20) / 20 }));
    // Strikes of one moment are met one after the other: which comes first moves the tempo by less than a ten-thousandth.
    const tempos = (from: readonly Hit[]) => pulsesOf(from).map(({ beatSeconds }) => beatSeconds);
    const turnedRound = tempos([...quantised].reverse());
    expect(turnedRound.length).toBeGreaterThan(2);
    tempos(quantised).forEach((seconds, index) => {
      expect(Math.abs((turnedRound[index] ?? 0) / seconds - 1)).toBeLessThan(1e-4);
    });
  });

  test("played slower, are as much slower", () => {
    const slower = pulsesOf(hits.map((hit) => ({ ...hit, time: hit.time * 1.1 })));
    for (const seconds of [60 / usualTempo(groove), 120 / usualTempo(groove)]) {
      expect(ofTempo(slower, 60 / (seconds * 1.1))).toBeDefined();
    }
  });

  test("are followed from the roots that are given", () => {
    const strokes = strokesOfHits(hits);
    const roots = rootPulses(strokes, general);
    expect(roots.length).toBeGreaterThan(0);
    const told = ({ folded, ...pulse }: PulseHypothesis) => ({ ...pulse, folded: folded(4) });
    expect(pulseHypotheses(strokes, general, roots).map(told)).toEqual(pulses.map(told));
    // From a root that is 3 % off, the beat that was played is found all the same; from none, nothing is.
    const off = { period: (60 / usualTempo(groove)) * 1.03, beatsRound: 8, around: 1 / 2, seconds: 9 };
    expect(ofTempo(pulseHypotheses(strokes, general, [off]), usualTempo(groove))).toBeDefined();
    expect(pulseHypotheses(strokes, general, [])).toEqual([]);
  });

  test("are followed from the middle where the tempo is held, and from standstills too where it is not", () => {
    const breathing = take(groove).map((hit) => ({ ...hit, time: hit.time + 0.25 * Math.sin(hit.time / 2) }));
    const held = rootPulses(strokesOfHits(hits), general);
    expect(new Set(held.map(({ around }) => around))).toEqual(new Set([1 / 2]));
    const unsteady = rootPulses(strokesOfHits(breathing), general);
    expect(unsteady.map(({ around }) => around)).toEqual(expect.arrayContaining([1 / 4, 1 / 2, 3 / 4]));
    for (const { period, beatsRound } of unsteady) {
      expect(60 / period).toBeGreaterThan(36.9);
      expect(60 / period).toBeLessThan(240.1);
      expect(beatsRound).toBeGreaterThanOrEqual(3);
    }
  });

  test("there is none in fewer than four strokes", () => {
    for (const count of [0, 1, 2, 3]) expect(pulsesOf(hits.slice(0, count))).toEqual([]);
  });
});

describe("a click", () => {
  test("is one pulse: its beats, whatever is struck", () => {
    const time = fc.double({ min: 0, max: 30, noNaN: true });
    fc.assert(
      fc.property(
        fc.array(time, { minLength: 2, maxLength: 20 }),
        fc.double({ min: 40, max: 240, noNaN: true }),
        fc.double({ min: -5, max: 5, noNaN: true }),
        (times, tempoBpm, from) => {
          const struck = times.map(
            (at): Hit => ({ time: at, voice: "snare", zone: "head", velocity: 0.7, pad: 38 }),
          );
          const { map } = clickPulse(strokesOfHits(struck), { tempoBpm, from });
          map.times.forEach((at, index) => {
            expect(map.beats[index]).toBeCloseTo(((at - from) * tempoBpm) / 60, 9);
          });
        },
      ),
    );
  });
});

describe("where a take begins", () => {
  const pulse = ofTempo(
    pulsesOf(take(writtenGrooveOf("rock-eighths"))),
    usualTempo(writtenGrooveOf("rock-eighths")),
  );
  if (!pulse) throw new Error("Rock eighths have no pulse.");
  const first = Math.round((pulse.strokes.beats[0] ?? 0) * PLACES_PER_BEAT);
  const BAR = 4 * PLACES_PER_BEAT;

  test("speaks for the turn whose one is there, and for no other", () => {
    for (let turn = 0; turn < BAR; turn += 1) {
      const apart = Math.min((((turn - first) % BAR) + BAR) % BAR, (((first - turn) % BAR) + BAR) % BAR);
      if (apart === 0) expect(beginningPrior(pulse, turn, BAR)).toBeGreaterThan(0);
      if (apart > 2) expect(beginningPrior(pulse, turn, BAR)).toBe(0);
    }
  });

  test("says the same a whole bar on", () => {
    fc.assert(
      fc.property(fc.integer({ min: -200, max: 200 }), (turn) => {
        expect(beginningPrior(pulse, turn + BAR, BAR)).toBe(beginningPrior(pulse, turn, BAR));
      }),
    );
  });

  test("is part of each bar's chance, and told apart", () => {
    const begun = barHypotheses(pulse, general).filter(({ begins }) => begins > 0);
    expect(begun.length).toBeGreaterThan(0);
    for (const { begins, turn, beatsInBar } of begun) {
      expect(begins).toBe(beginningPrior(pulse, turn, beatsInBar * PLACES_PER_BEAT));
    }
  });
});
