import { describe, expect, test } from "vitest";
import {
  demonstratedBeats,
  rubato,
  STYLES,
  suddenChange,
  type TempoCourse,
} from "../../../engine/catalogue/index.ts";
import { catalogueStock } from "../../../engine/listening/index.ts";
import { beatsPerBar, type Groove, usualTempo } from "../../../engine/score/index.ts";
import { seededChance } from "../../../engine/units/index.ts";
import { BEAT_WINDOW, countMatches } from "../../measures/eventMatching.ts";
import { heardAmong } from "./hypotheses.ts";
import { steadily, writtenGrooveOf } from "./played.ts";

const stock = catalogueStock(STYLES);

describe("a tempo that does not keep still", () => {
  const asked = STYLES.filter((_, index) => index % 4 === 0).flatMap(
    ({ variants: [groove] }) => groove ?? [],
  );

  /** The share of the true beats that are heard within 70 ms, of those from one on. */
  function found(groove: Groove, tempoCourse: TempoCourse, bars: number, from: number): number {
    const how = { tempoBpm: usualTempo(groove), bars, tempoCourse, chance: seededChance(3) };
    const beats = demonstratedBeats(groove, how).slice(from);
    const { pulse } = heardAmong(steadily(groove, { bars, tempoCourse }), stock);
    return countMatches(beats, pulse.beats, BEAT_WINDOW) / beats.length;
  }

  test("quicker and slower by a tenth over 32 beats: most beats of most grooves are heard", () => {
    const shares = asked.map((groove) => {
      const bars = Math.round(40 / beatsPerBar(groove.metre));
      return { id: groove.id, share: found(groove, rubato(0.1, 32), bars, 0) };
    });
    const told = shares.map(({ id, share }) => `${id} ${share.toFixed(2)}`).join(", ");
    expect(shares.reduce((sum, { share }) => sum + share, 0) / shares.length, told).toBeGreaterThan(0.9);
    expect(shares.filter(({ share }) => share > 0.5).length / shares.length, told).toBeGreaterThanOrEqual(
      0.9,
    );
  });

  test("changed of a sudden by a sixth after eight bars: from two bars on nearly all are heard", () => {
    const shares = asked.map((groove, index) => {
      const bar = beatsPerBar(groove.metre);
      const ratio = index % 2 === 0 ? 6 / 7 : 7 / 6;
      return { id: groove.id, share: found(groove, suddenChange(8 * bar, ratio), 16, 10 * bar) };
    });
    const told = shares.map(({ id, share }) => `${id} ${share.toFixed(2)}`).join(", ");
    expect(shares.reduce((sum, { share }) => sum + share, 0) / shares.length, told).toBeGreaterThan(0.95);
  });
});

describe("a hearing does not depend on", () => {
  const ids = ["rock-eighths", "jazz-waltz", "samba", "seven-eight"];
  const asked = ids.map(writtenGrooveOf);
  const among = {
    ...stock,
    grooves: stock.grooves.filter(({ id }, index) => index % 6 === 0 || ids.includes(id)),
  };

  test.each([3, 4096.5])("when it began: %f seconds later all moments are as much later", (later) => {
    for (const groove of asked) {
      const now = heardAmong(steadily(groove), among);
      const then = heardAmong(
        steadily(groove).map((hit) => ({ ...hit, time: hit.time + later })),
        among,
      );
      expect(then.pulse.tempoBpm).toBeCloseTo(now.pulse.tempoBpm, 4);
      expect(then.candidates.map(({ id }) => id)).toEqual(now.candidates.map(({ id }) => id));
      expect(then.noneConfidence).toBeCloseTo(now.noneConfidence, 4);
      expect(then.pulse.downbeats.length).toBe(now.pulse.downbeats.length);
      then.pulse.beats.forEach((beat, index) => {
        expect(beat - later).toBeCloseTo(now.pulse.beats[index] ?? Number.NaN, 4);
      });
    }
  });

  test.each([0.93, 1.07])("how fast it was played, within the groove's tempos: %f times as long", (share) => {
    for (const groove of asked) {
      const now = heardAmong(steadily(groove), among);
      const then = heardAmong(
        steadily(groove).map((hit) => ({ ...hit, time: hit.time * share })),
        among,
      );
      expect(then.candidates[0]?.id).toBe(now.candidates[0]?.id);
      expect((then.pulse.tempoBpm * share) / now.pulse.tempoBpm).toBeCloseTo(1, 2);
      expect(then.pulse.metre).toEqual(now.pulse.metre);
      then.pulse.downbeats.forEach((downbeat, index) => {
        expect(Math.abs(downbeat / share - (now.pulse.downbeats[index] ?? Number.NaN))).toBeLessThan(0.02);
      });
    }
  });

  test("the order of strikes of one moment", () => {
    for (const groove of asked) {
      // On a grid of 20 ms, so that strikes do fall together.
      const hits = steadily(groove).map((hit) => ({ ...hit, time: Math.round(hit.time * 50) / 50 }));
      const byVoice = [...hits].sort((a, b) => a.time - b.time || (a.voice < b.voice ? -1 : 1));
      const turnedRound = [...hits].sort((a, b) => a.time - b.time || (a.voice < b.voice ? 1 : -1));
      expect(turnedRound).not.toEqual(byVoice);
      const [one, other] = [heardAmong(byVoice, among), heardAmong(turnedRound, among)];
      expect(other.candidates[0]?.id).toBe(one.candidates[0]?.id);
      expect(other.pulse.tempoBpm / one.pulse.tempoBpm).toBeCloseTo(1, 3);
      expect(Math.abs(other.noneConfidence - one.noneConfidence)).toBeLessThan(0.05);
    }
  });
});
