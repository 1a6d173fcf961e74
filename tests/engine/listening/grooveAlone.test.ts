import { describe, expect, test } from "vitest";
import { STYLES } from "../../../engine/catalogue/index.ts";
import type { Hit, Voice } from "../../../engine/kit/index.ts";
import { PLACES_PER_BEAT } from "../../../engine/listening/barModel.ts";
import { type GrooveAlone, grooveAlone } from "../../../engine/listening/grooveAlone.ts";
import { likeness } from "../../../engine/listening/likeness.ts";
import { soundOf } from "../../../engine/listening/roles.ts";
import { beatsPerBar, usualTempo } from "../../../engine/score/index.ts";
import { knownGrooveOf, laidOn, modelFor } from "./hypotheses.ts";
import { played, writtenGrooveOf } from "./played.ts";

const TEMPO_BPM = 100;
const BEAT = 60 / TEMPO_BPM;
const BARS = 8;
const model = modelFor(knownGrooveOf("rock-eighths"), TEMPO_BPM);
const GROOVE = played(writtenGrooveOf("rock-eighths"), { tempoBpm: TEMPO_BPM, bars: BARS });

function alone(hits: readonly Hit[]): GrooveAlone {
  return grooveAlone(model, laidOn(model, hits, TEMPO_BPM));
}

/** The groove with sixteenths down the drums from one beat to another. */
function withFill(from: number, to: number): readonly Hit[] {
  const voices: readonly Voice[] = ["snare", "high-tom", "mid-tom", "floor-tom"];
  const kept = GROOVE.filter(({ time }) => time < (from - 0.1) * BEAT || time >= (to - 0.1) * BEAT);
  const fill = Array.from({ length: 4 * (to - from) }, (_, index): Hit => {
    const voice = voices[Math.floor(index / 4) % voices.length] ?? "snare";
    return { time: (from + index / 4) * BEAT, voice, zone: "whole", velocity: 0.8, pad: 0 };
  });
  return [...kept, ...fill].sort((a, b) => a.time - b.time);
}

function strokesOf({ counts }: GrooveAlone, voice: Voice): number {
  const sound = soundOf(voice) ?? Number.NaN;
  return counts.slice(sound * model.places, (sound + 1) * model.places).reduce((a, b) => a + b, 0);
}

describe("a groove without a fill", () => {
  const plain = alone(GROOVE);

  test("is all the groove's, and nothing is gained by fills", () => {
    expect(plain.share).toBeGreaterThan(0.97);
    expect(plain.gain).toBeLessThan(0);
    // Beat by beat the chance to stay is counted, and hardly anything else.
    expect(plain.gain).toBeGreaterThan(BARS * 4 * Math.log(1 - 0.07) - 1);
  });

  test("each of its beats was heard as often as it was played, but for the end after the last stroke", () => {
    const heard = plain.exposures.reduce((a, b) => a + b, 0);
    expect(heard).toBeGreaterThan(0.95 * (BARS * 4 - 1));
    expect(heard).toBeLessThanOrEqual(BARS * 4);
  });

  test("its strokes lie where it has them", () => {
    const kick = plain.counts.slice(0, model.places);
    const struck = [...kick.keys()].filter((place) => (kick[place] ?? 0) > 1);
    expect(struck.every((place) => (place % PLACES_PER_BEAT) % (PLACES_PER_BEAT / 2) === 0)).toBe(true);
  });
});

describe("a groove with a fill", () => {
  const filled = alone(withFill(12, 16));

  test("is the groove's but for the beats of the fill, which explains more than it costs", () => {
    expect(filled.share).toBeGreaterThan(1 - 5.5 / 32);
    expect(filled.share).toBeLessThan(1 - 3 / 32);
    expect(filled.gain).toBeGreaterThan(5);
  });

  test("the drums of the fill are set aside", () => {
    expect(strokesOf(filled, "high-tom")).toBeLessThan(0.2);
    expect(strokesOf(filled, "floor-tom")).toBeLessThan(0.2);
  });

  test("is as like the groove as without one, heard in two bars of which a half is the fill", () => {
    const twoBars = (hits: readonly Hit[]) =>
      hits.filter(({ time }) => time >= 8 * BEAT && time < 15.9 * BEAT);
    const unlike = (hits: readonly Hit[]): number => {
      const moved = twoBars(hits).map((hit) => ({ ...hit, time: hit.time - 8 * BEAT }));
      return likeness(model, alone(moved)).reduce(
        (sum, { intruding, absent }) => sum + intruding + absent,
        0,
      );
    };
    expect(unlike(withFill(12, 16))).toBeLessThan(unlike(GROOVE) + 0.05);
  });
});

/** Styles that come round with whole bars of their pulse, each as its first variant is written. */
const WRITTEN = STYLES.flatMap(({ id, variants: [groove] }) => {
  if (!groove) return [];
  const tempoBpm = usualTempo(groove);
  const known = modelFor(knownGrooveOf(groove.id), tempoBpm);
  const isWhole = known.feltPerPulse === 1 && known.beats % beatsPerBar(groove.metre) === 0;
  return isWhole ? [{ id, groove, tempoBpm, known }] : [];
});

test("most styles come round with whole bars of their pulse", () => {
  expect(WRITTEN.length).toBeGreaterThan(40);
});

test.each(WRITTEN)("$id, played as written, is not taken for a fill", ({ groove, tempoBpm, known }) => {
  const { share } = grooveAlone(known, laidOn(known, played(groove, { tempoBpm, bars: BARS }), tempoBpm));
  expect(share).toBeGreaterThan(0.9);
});
