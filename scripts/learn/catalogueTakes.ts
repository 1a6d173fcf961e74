/**
 * The catalogue as takes: grooves no human take of the data set plays, so that reading learns bars of all kinds. Each
 * variant loosely, at several tempos, on either cymbal, most with fills where four bars of four end.
 */
import { demonstrate, FILLS, type PlacedFill, STYLES } from "../../engine/catalogue/index.ts";
import { beatsPerBar, fillBars, type Groove, metreName, usualTempo } from "../../engine/score/index.ts";
import type { Chance } from "../../engine/units/index.ts";
import type { Take } from "./takes.ts";

const TAKES_OF_EACH = 4;
const BARS = 16;
const BARS_WITH_FILLS = [8, 16];
/** A human spread, and losses and additions as players with habits of their own make them. Our choice. */
const SPREAD_MS = 12;
const LEFT_OUT = 0.08;
const ADDED = 0.1;
const WITH_FILLS = 0.7;
const ON_OTHER_CYMBAL = 0.5;

/** Takes of every variant whose bars have three or four beats. */
export function catalogueTakes(chance: Chance): readonly Take[] {
  return STYLES.flatMap(({ id: style, variants }) =>
    variants.flatMap((groove) => {
      const beatsInBar = beatsPerBar(groove.metre);
      if (beatsInBar !== 3 && beatsInBar !== 4) return [];
      return Array.from({ length: TAKES_OF_EACH }, () => {
        const tempoBpm = usualTempo(groove) * (0.8 + 0.45 * chance());
        const strokes = demonstrate(groove, {
          tempoBpm,
          bars: BARS,
          leanMs: 0,
          spreadMs: SPREAD_MS,
          leftOut: LEFT_OUT,
          added: ADDED,
          chance,
          fills: fillsFor(groove, chance),
          ...onEitherCymbal(groove, chance),
        });
        const hits = strokes.map((stroke) => ({ ...stroke, zone: "whole" as const, pad: 0 }));
        return { id: `catalogue/${groove.id}`, drummer: "catalogue", style, tempoBpm, beatsInBar, hits };
      });
    }),
  );
}

function fillsFor(groove: Groove, chance: Chance): readonly PlacedFill[] {
  const suited = FILLS.filter(
    ({ metre, feel }) => metreName(metre) === metreName(groove.metre) && feel.kind === groove.feel.kind,
  );
  if (suited.length === 0 || chance() >= WITH_FILLS) return [];
  return BARS_WITH_FILLS.flatMap((lastBar) => {
    const fill = suited[Math.floor(chance() * suited.length)];
    return fill ? [{ fill, bar: lastBar + 1 - fillBars(fill) }] : [];
  });
}

function onEitherCymbal(groove: Groove, chance: Chance) {
  if (chance() >= ON_OTHER_CYMBAL) return {};
  const isOnRide = groove.voices.some((voice) => voice === "ride" || voice === "bell");
  const isOnHats = groove.voices.some((voice) => voice === "hi-hat-closed" || voice === "hi-hat-open");
  if (isOnRide) return { orchestration: { timeOn: "hi-hat-closed" as const } };
  return isOnHats ? { orchestration: { timeOn: "ride" as const } } : {};
}
