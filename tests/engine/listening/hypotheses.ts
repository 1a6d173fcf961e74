import { STYLES } from "../../../engine/catalogue/index.ts";
import type { Hit } from "../../../engine/kit/index.ts";
import { type Background, shippedBackground } from "../../../engine/listening/background.ts";
import { fold } from "../../../engine/listening/barModel.ts";
import { type Click, type Heard, hear, type Stock } from "../../../engine/listening/index.ts";
import type { GrooveModel, KnownGroove } from "../../../engine/listening/knownGroove.ts";
import type { Placing } from "../../../engine/listening/placing.ts";
import { clickPulse, type PulseHypothesis } from "../../../engine/listening/pulse.ts";
import { type Stroke, strokesOfHits } from "../../../engine/listening/roles.ts";
import { catalogueStock, writtenGroove } from "../../../engine/listening/stock.ts";
import type { Bpm } from "../../../engine/units/index.ts";
import { writtenGrooveOf } from "./played.ts";

/** The one pulse at this tempo whose beat 0 is at time 0. */
export function pulseAt(hits: readonly Hit[], tempoBpm: Bpm): PulseHypothesis {
  return clickPulse(strokesOfHits(hits), { tempoBpm, from: 0 });
}

/** A closed hi-hat every quarter of a second, from time 0. */
export function hiHatAlone(strokes: number): readonly Stroke[] {
  return strokesOfHits(
    Array.from({ length: strokes }, (_, index) => ({
      time: index / 4,
      voice: "hi-hat-closed" as const,
      zone: "whole" as const,
      velocity: 0.6,
      pad: 42,
    })),
  );
}

/** A stock of these styles only. */
export function stockOf(...ids: readonly string[]): Stock {
  return catalogueStock(STYLES.filter(({ id }) => ids.includes(id)));
}

/** One written groove as listening knows it. */
export function knownGrooveOf(id: string, general: Background = shippedBackground()): KnownGroove {
  return writtenGroove(writtenGrooveOf(id), general);
}

/** The first model of a known groove that is meant for a pulse at this tempo. Fails loudly when there is none. */
export function modelFor({ id, models }: KnownGroove, tempoBpm: Bpm): GrooveModel {
  const seconds = 60 / tempoBpm;
  const model = models.find(
    ({ forBeatSeconds }) =>
      !forBeatSeconds || (seconds >= forBeatSeconds.from && seconds < forBeatSeconds.below),
  );
  if (!model) throw new Error(`${id} has no model for ${tempoBpm} a minute.`);
  return model;
}

/** A groove laid on a take whose first downbeat is at time 0. */
export function laidOn(model: GrooveModel, hits: readonly Hit[], tempoBpm: Bpm): Placing {
  const pulse = pulseAt(hits, tempoBpm);
  return { pulse, turn: 0, folded: fold(pulse.strokes, model.beats, pulse.spanBeats), score: 0 };
}

/** What is heard in a take. Fails loudly when that is nothing. */
export function heardAmong(hits: readonly Hit[], stock: Stock, click?: Click): Heard {
  const hearing = hear(hits, stock, click ? { click } : {});
  if (hearing.kind !== "heard") throw new Error(`Nothing was heard: ${hearing.reason}.`);
  return hearing;
}
