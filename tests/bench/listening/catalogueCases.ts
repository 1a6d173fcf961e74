/**
 * Hard cases of the catalogue: its written grooves, humanised. Tempo ±25 %, lean ±20 ms, spread 15 ms, a twentieth left
 * out, a twentieth added.
 */
import {
  type DemonstratedStroke,
  type Demonstration,
  demonstrate,
  demonstratedBeats,
  demonstratedDownbeats,
  type Orchestration,
  STYLES,
} from "../../../engine/catalogue/index.ts";
import type { Hit } from "../../../engine/kit/index.ts";
import { type Groove, usualTempo } from "../../../engine/score/index.ts";
import { type Chance, seededChance } from "../../../engine/units/index.ts";
import { shuffled } from "../../../scripts/learn/players/shelves.ts";

export interface CatalogueCase {
  readonly styleId: string;
  readonly groove: Groove;
  readonly tempoBpm: number;
  readonly hits: readonly Hit[];
  /** Where the pulse truly is. */
  readonly beats: readonly number[];
  readonly downbeats: readonly number[];
}

type Extra = Partial<Omit<Demonstration, "chance" | "bars">>;

/** As many cases as asked, variants in random order, each as often as any other. */
export function catalogueCases(
  count: number,
  bars: number,
  seed: number,
  extra: (groove: Groove, chance: Chance) => Extra = () => ({}),
  suits: (groove: Groove) => boolean = () => true,
): readonly CatalogueCase[] {
  const chance = seededChance(seed);
  const written = STYLES.flatMap(({ id, variants }) =>
    variants.filter(suits).map((groove) => ({ styleId: id, groove })),
  );
  const order = shuffled(written, chance);
  return Array.from({ length: count }, (_, index) => order[index % order.length]).flatMap((one) =>
    one ? [hardCase(one.styleId, one.groove, bars, extra(one.groove, chance), chance)] : [],
  );
}

function hardCase(
  styleId: string,
  groove: Groove,
  bars: number,
  extra: Extra,
  chance: Chance,
): CatalogueCase {
  const tempoBpm = usualTempo(groove) * (0.75 + 0.5 * chance());
  const how: Demonstration = {
    tempoBpm,
    bars,
    leanMs: 40 * (chance() - 0.5),
    spreadMs: 15,
    leftOut: 0.05,
    added: 0.05,
    chance,
    ...extra,
  };
  return {
    styleId,
    groove,
    tempoBpm: how.tempoBpm,
    hits: demonstrate(groove, how).map(struck),
    beats: demonstratedBeats(groove, how),
    downbeats: demonstratedDownbeats(groove, how),
  };
}

function struck(stroke: DemonstratedStroke): Hit {
  return { ...stroke, zone: "whole", pad: 0 };
}

/** The time moved to the other cymbal; nothing where neither keeps it. */
export function otherCymbal(groove: Groove): { readonly orchestration?: Orchestration } {
  const onRide = groove.voices.some((voice) => voice === "ride" || voice === "bell");
  const onHats = groove.voices.some((voice) => voice === "hi-hat-closed" || voice === "hi-hat-open");
  if (onRide) return { orchestration: { timeOn: "hi-hat-closed" } };
  return onHats ? { orchestration: { timeOn: "ride" } } : {};
}
