/**
 * The rounds that are kept step by step: the schema of their steps, and their rules. To add one, add a line to each of the
 * two lists here.
 */
import { z } from "zod";
import type { Naming } from "../../catalogue/index.ts";
import {
  type BackTurned,
  type BackTurnedEvent,
  backTurnedEventSchema,
  backTurnedRules,
} from "../backTurned/round.ts";
import {
  type CardTable,
  type CardTableEvent,
  cardTableEventSchema,
  cardTableRules,
} from "../cardTable/round.ts";
import {
  type SayAndStrike,
  type SayAndStrikeEvent,
  sayAndStrikeEventSchema,
  sayAndStrikeRules,
} from "../sayAndStrike/round.ts";
import { type Spotting, type SpottingEvent, spottingEventSchema, spottingRules } from "../spotting/round.ts";
import { type Trading, type TradingEvent, tradingEventSchema, tradingRules } from "../trading/round.ts";
import {
  type WallChart,
  type WallChartEvent,
  wallChartEventSchema,
  wallChartRules,
} from "../wallChart/round.ts";
import {
  type FrameEvent,
  frameEventSchema,
  freshPlay,
  type Play,
  playAfter,
  type RoundRules,
  type Shown,
} from "./play.ts";

/** One step of a round: what all rounds have in common, or one of its own. */
export const roundStepSchema = z.discriminatedUnion("round", [
  z
    .object({ round: z.literal("back-turned"), event: z.union([frameEventSchema, backTurnedEventSchema]) })
    .readonly(),
  z
    .object({ round: z.literal("spotting"), event: z.union([frameEventSchema, spottingEventSchema]) })
    .readonly(),
  z
    .object({
      round: z.literal("say-and-strike"),
      event: z.union([frameEventSchema, sayAndStrikeEventSchema]),
    })
    .readonly(),
  z
    .object({ round: z.literal("card-table"), event: z.union([frameEventSchema, cardTableEventSchema]) })
    .readonly(),
  z
    .object({ round: z.literal("wall-chart"), event: z.union([frameEventSchema, wallChartEventSchema]) })
    .readonly(),
  z
    .object({ round: z.literal("trading"), event: z.union([frameEventSchema, tradingEventSchema]) })
    .readonly(),
]);
export type RoundStep = z.infer<typeof roundStepSchema>;
export type SteppedKind = RoundStep["round"];

/** What each keeps, and its own events. */
export interface SteppedRounds {
  readonly "back-turned": { readonly own: BackTurned; readonly event: BackTurnedEvent };
  readonly spotting: { readonly own: Spotting; readonly event: SpottingEvent };
  readonly "say-and-strike": { readonly own: SayAndStrike; readonly event: SayAndStrikeEvent };
  readonly "card-table": { readonly own: CardTable; readonly event: CardTableEvent };
  readonly "wall-chart": { readonly own: WallChart; readonly event: WallChartEvent };
  readonly trading: { readonly own: Trading; readonly event: TradingEvent };
}
export type OwnOf<Kind extends SteppedKind> = SteppedRounds[Kind]["own"];
export type EventOfRound<Kind extends SteppedKind> = SteppedRounds[Kind]["event"];
export type StepEvent<Kind extends SteppedKind> = EventOfRound<Kind> | FrameEvent;

export const ROUND_RULES: {
  readonly [Kind in SteppedKind]: RoundRules<OwnOf<Kind>, EventOfRound<Kind>>;
} = {
  "back-turned": backTurnedRules,
  spotting: spottingRules,
  "say-and-strike": sayAndStrikeRules,
  "card-table": cardTableRules,
  "wall-chart": wallChartRules,
  trading: tradingRules,
};

/** A round and what its latest step showed. */
export interface Stepped {
  readonly play: Play<unknown>;
  readonly shown: readonly Shown[];
  /** The step in a sentence; `null` for one that is not worth a line, or changed nothing. */
  readonly words: string | null;
}

/**
 * The round after each of its steps, in their order. Steps of another kind of round change nothing.
 *
 * @param naming how signs are called in the sentences.
 */
export function stepByStep(
  kind: SteppedKind,
  steps: readonly RoundStep[],
  naming: Naming = "us",
): readonly Stepped[] {
  return eachStep(
    rulesOf(kind),
    steps.filter(({ round }) => round === kind).map(({ event }) => event),
    naming,
  );
}

/** The round after all of its steps. */
export function playOf<Kind extends SteppedKind>(kind: Kind, steps: readonly RoundStep[]): Play<OwnOf<Kind>> {
  const rules = ROUND_RULES[kind];
  let play = freshPlay(rules);
  for (const step of steps)
    if (step.round === kind) play = playAfter(rules, play, step.event as StepEvent<Kind>);
  return play;
}

/** Which kind it is does not matter any more where only what all have in common is asked for. */
function rulesOf(kind: SteppedKind): RoundRules<unknown, { readonly kind: string }> {
  return ROUND_RULES[kind] as RoundRules<unknown, { readonly kind: string }>;
}

function eachStep(
  rules: RoundRules<unknown, { readonly kind: string }>,
  events: readonly { readonly kind: string }[],
  naming: Naming,
): readonly Stepped[] {
  let play = freshPlay(rules);
  let count = 0;
  return events.map((event) => {
    const before = play;
    play = playAfter(rules, play, event);
    const all = rules.shown(play.own);
    const shown = all.slice(count);
    count = all.length;
    return {
      play,
      shown,
      words: play === before ? null : (frameWords(event) ?? rules.words(before.own, event, naming)),
    };
  });
}

/** What happened to the frame, in a sentence. */
function frameWords({ kind }: { readonly kind: string }): string | null {
  switch (kind) {
    case "began":
      return "The round begins.";
    case "paused":
      return "A pause.";
    case "resumed":
      return "It goes on.";
    case "stopped":
      return "The round is over.";
    default:
      return null;
  }
}
