/**
 * Question: how has this player played these grooves before?
 * Method: an earlier take is laid on the groove it is a take of, so that tempo, bar and one are the groove's, and its strokes
 * are counted as those of reference takes are. What is learnt stands beside the written models; the better one speaks.
 */
import type { Hit } from "../kit/index.ts";
import { beatsPerBar } from "../score/index.ts";
import type { Background } from "./background.ts";
import { countedIn } from "./countIn.ts";
import { type GrooveModel, type KnownGroove, variantOf } from "./knownGroove.ts";
import { pulseHypotheses } from "./pulse.ts";
import { strokesOfHits } from "./roles.ts";
import { BARS_IN_REPEAT, knownFromTakes, modelOfTakes, type ReferenceGroove, type Stock } from "./stock.ts";
import { type PlacedGroove, placeGrooves } from "./weighing.ts";

/**
 * Only the latest takes of a groove are learnt from: each costs some 20 ms, three say as much of a habit as more do, and a
 * player who learns plays otherwise than a while ago. Our choice.
 */
const LATEST_TAKES = 3;

/**
 * A stock that also knows how the player has played its grooves before.
 *
 * @param own earlier takes, the latest last. Those with the id of a groove of the stock join it, the others are grooves of
 *   their own. Takes in which no pulse is heard are left out.
 * @example
 * withOwnTakes(catalogueStock(STYLES), [{ id: "shuffle", name: "Shuffle", takes: [hits] }]).grooves.length
 * // => STYLES.length
 */
export function withOwnTakes(stock: Stock, own: readonly ReferenceGroove[]): Stock {
  const { general } = stock;
  const latest = own.map((groove) => ({ ...groove, takes: groove.takes.slice(-LATEST_TAKES) }));
  const takesOf = new Map(latest.map(({ id, takes }) => [id, takes]));
  const grooves = stock.grooves.map((known) => withOwnWays(known, takesOf.get(known.id) ?? [], general));
  const more = latest
    .filter(({ id }) => stock.grooves.every((known) => known.id !== id))
    .flatMap((groove) => knownFromTakes(groove, general) ?? []);
  return { ...stock, grooves: [...grooves, ...more] };
}

function withOwnWays(
  known: KnownGroove,
  takes: readonly (readonly Hit[])[],
  general: Background,
): KnownGroove {
  const laid = takes.flatMap((take) => {
    const pulses = pulseHypotheses(strokesOfHits(countedIn(take)?.groove ?? take), general);
    return placeGrooves({ grooves: [known], general }, pulses, 0);
  });
  if (laid.length === 0) return known;
  const usual = general.average.get(beatsPerBar(known.metre));
  const models = ofOneVariant(laid).flatMap((alike) => ownWay(alike, usual));
  const tempos = laid.map(({ model, placing }) => (60 * model.feltPerPulse) / placing.pulse.beatSeconds);
  return {
    ...known,
    models: [...known.models, ...models],
    tempoBpm: {
      low: Math.min(known.tempoBpm.low, ...tempos),
      high: Math.max(known.tempoBpm.high, ...tempos),
    },
  };
}

/** Takes of the same variant are counted together; another kick on the same pages would blur both. */
function ofOneVariant(laid: readonly PlacedGroove[]): readonly (readonly PlacedGroove[])[] {
  const variants = new Map<string, PlacedGroove[]>();
  for (const one of laid) {
    const key = `${variantOf(one.model)?.id ?? ""} ${one.model.feltPerPulse}`;
    variants.set(key, [...(variants.get(key) ?? []), one]);
  }
  return [...variants.values()];
}

/** A player's way comes round with what is written, or after twice as much. */
function ownWay(
  [first, ...others]: readonly PlacedGroove[],
  usual: Float64Array | undefined,
): readonly GrooveModel[] {
  if (!first) return [];
  const { model, placing } = first;
  const variant = variantOf(model);
  return BARS_IN_REPEAT.map((rounds) => ({
    ...modelOfTakes(
      placing,
      others.map((other) => [other.placing.pulse]),
      model.beats * rounds,
      usual,
    ),
    feltPerPulse: model.feltPerPulse,
    ...(variant ? { ownWayOf: variant } : {}),
  }));
}
