import { describe, expect, test } from "vitest";
import { STYLES } from "../../../engine/catalogue/index.ts";
import type { Hit } from "../../../engine/kit/index.ts";
import { shippedBackground, tempering } from "../../../engine/listening/background.ts";
import { barModel } from "../../../engine/listening/barModel.ts";
import { ROLE_COUNT } from "../../../engine/listening/roles.ts";
import { standingOut } from "../../../engine/listening/standingOut.ts";
import { usualTempo } from "../../../engine/score/index.ts";
import { knownGrooveOf, laidOn, modelFor } from "./hypotheses.ts";
import { played, writtenGrooveOf } from "./played.ts";

const general = shippedBackground();

function standing(
  grooveId: string,
  playedId: string,
  change: (hits: readonly Hit[]) => readonly Hit[] = (h) => h,
) {
  const groove = writtenGrooveOf(playedId);
  const tempoBpm = usualTempo(groove);
  const model = modelFor(knownGrooveOf(grooveId), tempoBpm);
  const hits = change(played(groove, { tempoBpm, bars: 8 }));
  const laid = laidOn(model, hits, tempoBpm);
  return { ...standingOut(model, laid, general), model, laid };
}

describe("how far a groove stands out from grooves in general", () => {
  test("is a divergence: never below nothing, of the whole and of each part", () => {
    for (const { id } of STYLES) {
      const { perBeat, parts } = standing(id, "rock-eighths");
      expect(perBeat.groove, id).toBeGreaterThan(0);
      for (const part of parts) expect(part.groove, id).toBeGreaterThanOrEqual(0);
    }
  });

  test("is nothing for the average bar itself", () => {
    const usual = general.average.get(4);
    if (!usual) throw new Error("There is no average bar of four.");
    // What is added everywhere to both is 0.004 of a stroke; as a floor of a model it is that many for every place.
    const average = { ...barModel(usual, 4, 0.004 * 12 * ROLE_COUNT), feltPerPulse: 1 };
    const hits = played(writtenGrooveOf("rock-eighths"), { tempoBpm: 100, bars: 8 });
    const { perBeat, whole, parts } = standingOut(average, laidOn(average, hits, 100), general);
    for (const { groove, take } of [perBeat, whole, ...parts]) {
      expect(groove).toBeCloseTo(0, 9);
      expect(take).toBeCloseTo(0, 9);
    }
  });

  test("does not depend on what was played", () => {
    const { groove } = standing("bossa-nova", "bossa-nova").perBeat;
    const half = standing("bossa-nova", "bossa-nova", (hits) => hits.filter((_, index) => index % 2 === 0));
    expect(half.perBeat.groove).toBeCloseTo(groove, 9);
    expect(half.perBeat.take).toBeLessThan(standing("bossa-nova", "bossa-nova").perBeat.take);
  });
});

describe("how far a take does", () => {
  const styles = ["rock-eighths", "bossa-nova", "samba", "one-drop", "merengue", "half-time"];
  test.each(styles)("%s: more towards its own groove than towards any other of these", (id) => {
    const own = standing(id, id).perBeat.take;
    expect(own).toBeGreaterThan(0);
    for (const other of styles.filter((each) => each !== id)) {
      expect(standing(other, id).perBeat.take, other).toBeLessThan(own);
    }
  });

  test("of the whole take is that of a beat, for all its beats, tempered by its length", () => {
    const { perBeat, whole, laid } = standing("samba", "samba");
    const beats = laid.folded.repeats * laid.folded.beats;
    const temper = tempering(laid.pulse.spanBeats * laid.pulse.beatSeconds);
    expect(whole.take).toBeCloseTo(perBeat.take * beats * temper, 9);
    expect(whole.groove).toBeCloseTo(perBeat.groove * beats * temper, 9);
  });

  test("part by part: without its kicks only the kick stands out less", () => {
    const all = standing("bossa-nova", "bossa-nova");
    const without = standing("bossa-nova", "bossa-nova", (hits) =>
      hits.filter(({ voice }, index) => voice !== "kick" || index === 0),
    );
    // In the order kick, back-beat, time-keeper, colour, snare and rim, cymbals.
    expect(without.parts[0]?.take ?? 0).toBeLessThan(all.parts[0]?.take ?? 0);
    all.parts.slice(1).forEach(({ take }, index) => {
      expect(without.parts[index + 1]?.take).toBeCloseTo(take, 6);
    });
    expect(all.parts.length).toBe(6);
  });
});
