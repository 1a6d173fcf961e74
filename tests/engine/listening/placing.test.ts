import { describe, expect, test } from "vitest";
import { shippedBackground, tempering } from "../../../engine/listening/background.ts";
import { fold, PLACES_PER_BEAT, scoreTurns, turnAt } from "../../../engine/listening/barModel.ts";
import type { GrooveModel } from "../../../engine/listening/knownGroove.ts";
import { bestPlacing, type Placing, suitingPulses } from "../../../engine/listening/placing.ts";
import { beginningPrior, type PulseHypothesis, pulseHypotheses } from "../../../engine/listening/pulse.ts";
import { strokesOfHits } from "../../../engine/listening/roles.ts";
import { usualTempo } from "../../../engine/score/index.ts";
import { seededChance } from "../../../engine/units/index.ts";
import { knownGrooveOf, modelFor } from "./hypotheses.ts";
import { played, writtenGrooveOf } from "./played.ts";

const general = shippedBackground();

function pulsesOf(id: string): readonly PulseHypothesis[] {
  const groove = writtenGrooveOf(id);
  const how = { tempoBpm: usualTempo(groove), bars: 8, spreadMs: 8, chance: seededChance(4) };
  return pulseHypotheses(strokesOfHits(played(groove, how)), general);
}

function modelOf(id: string): GrooveModel {
  return modelFor(knownGrooveOf(id), usualTempo(writtenGrooveOf(id)));
}

/** Among these pulses, of whatever tempo. */
function placed(
  model: GrooveModel,
  pulses: readonly PulseHypothesis[],
  tempoPrior?: (tempoBpm: number) => number,
): Placing | undefined {
  return bestPlacing(model, suitingPulses(pulses, model.feltPerPulse, tempoPrior));
}

const pulses = pulsesOf("bossa-nova");
const model = modelOf("bossa-nova");

describe("the best placing of a groove", () => {
  test("is none where there is no pulse, or none it is meant for", () => {
    expect(placed(model, [])).toBeUndefined();
    expect(placed({ ...model, forBeatSeconds: { from: 3, below: 4 } }, pulses)).toBeUndefined();
  });

  test("is the best of all turns of all pulses it is meant for", () => {
    const scored = pulses
      .filter(({ beatSeconds }) => {
        const { from, below } = model.forBeatSeconds ?? { from: 0, below: Number.POSITIVE_INFINITY };
        return beatSeconds >= from && beatSeconds < below;
      })
      .flatMap((pulse) => {
        const folded = pulse.folded(model.beats);
        const temper = tempering(folded.repeats * folded.beats * pulse.beatSeconds);
        const scores = new Float64Array(model.beats * pulse.phases.length);
        scoreTurns(model, folded, pulse.phases, scores);
        return [...scores].map((score, index) => {
          const turn = turnAt({ beats: model.beats, phases: pulse.phases }, index);
          const perSecond = -folded.mass * Math.log(pulse.beatSeconds);
          return {
            turn,
            pulse,
            score: (score + perSecond) * temper + beginningPrior(pulse, turn, model.places),
          };
        });
      });
    expect(scored.length).toBeGreaterThan(model.beats);
    const best = scored.reduce((a, b) => (b.score > a.score ? b : a));
    const placing = placed(model, pulses);
    expect(placing?.turn).toBe(best.turn);
    expect(placing?.pulse).toBe(best.pulse);
    expect(placing?.score).toBeCloseTo(best.score, 6);
  });

  test.each(["bossa-nova", "rock-eighths", "samba", "jazz-waltz", "twelve-eight-blues", "swing-in-five"])(
    "%s is placed on its own take at its own tempo, its one on the first downbeat",
    (id) => {
      const tempoBpm = usualTempo(writtenGrooveOf(id));
      const placing = placed(modelOf(id), pulsesOf(id));
      if (!placing) throw new Error("It was not placed.");
      expect((placing.pulse.beatSeconds * tempoBpm) / 60).toBeCloseTo(1, 2);
      const { map } = placing.pulse;
      // The first stroke is at time 0 but for its spread, or so many beats after it.
      const first = (map.beats[0] ?? 0) - ((map.times[0] ?? 0) * tempoBpm) / 60;
      const places = first * PLACES_PER_BEAT - placing.turn;
      const length = modelOf(id).places;
      expect(Math.abs(places - Math.round(places / length) * length)).toBeLessThan(0.6);
    },
  );

  test("a tempo that is as likely everywhere changes nothing but the score", () => {
    const plain = placed(model, pulses);
    const shifted = placed(model, pulses, () => -2);
    expect(shifted?.turn).toBe(plain?.turn);
    expect(shifted?.pulse).toBe(plain?.pulse);
    expect((plain?.score ?? 0) - (shifted?.score ?? 0)).toBeCloseTo(2, 9);
  });

  test("a hopeless tempo is not tried", () => {
    expect(placed(model, pulses, () => -7)).toBeUndefined();
    const plain = placed(model, pulses);
    const own = 60 / (plain?.pulse.beatSeconds ?? 1);
    const elsewhere = placed({ ...model }, pulses, (tempoBpm) => (Math.abs(tempoBpm - own) < 1 ? -7 : 0));
    expect(elsewhere?.pulse).not.toBe(plain?.pulse);
  });

  test("the tempo asked about is the felt one: twice the pulse's where two felt beats go on one", () => {
    const asked = (feltPerPulse: number): readonly number[] => {
      const tempos: number[] = [];
      placed({ ...model, feltPerPulse }, pulses, (tempoBpm) => {
        tempos.push(tempoBpm);
        return 0;
      });
      return tempos;
    };
    const once = asked(1);
    expect(once.length).toBeGreaterThan(0);
    expect(asked(2)).toEqual(once.map((tempoBpm) => 2 * tempoBpm));
  });

  test("does not depend on the order of the pulses", () => {
    const turnedRound = placed(model, [...pulses].reverse());
    const plain = placed(model, pulses);
    expect(turnedRound?.pulse).toBe(plain?.pulse);
    expect(turnedRound?.turn).toBe(plain?.turn);
  });
});

test("folds are made once for each pulse and length, and are those of the pulse", () => {
  const [pulse, other] = pulses;
  if (!pulse || !other) throw new Error("There are no two pulses.");
  expect(pulse.folded(4)).toBe(pulse.folded(4));
  expect(pulse.folded(4)).not.toBe(pulse.folded(8));
  expect(pulse.folded(4)).not.toBe(other.folded(4));
  expect(pulse.folded(8)).toEqual(fold(pulse.strokes, 8, pulse.spanBeats));
});
