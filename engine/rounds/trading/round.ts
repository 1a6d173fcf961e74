/**
 * Trading: two players exchange phrases in time.
 *
 * Whose turn it is at a moment is no state of the round: it is told by the form, the pulse and the time (`engine/trading`). What
 * is kept is what was asked for, and what was said of each exchange and of each form.
 */
import { type Draft, produce } from "immer";
import { z } from "zod";
import { FOUR_FOUR, type Metre, metreName } from "../../score/index.ts";
import { AIM_NAMES, AIMS, type Aim, FORM_NAMES, FORMS, type Side } from "../../trading/index.ts";
import { type Dealt, type PlayerId, playerIdSchema, type RoundRules, type Shown } from "../frame/play.ts";
import { exchangeTimelineSchema, sideSchema } from "./timeline.ts";

/** What the time is kept by: a click, a soft time-keeper, or nothing: the first player's own pulse. */
export const TIMES = ["click", "time-keeper", "first-player"] as const;
export type TimeKept = (typeof TIMES)[number];

/**
 * At what they play: two kits, one kit by turns, a kit and one in another place, a kit and a player who is not there, or two who
 * are not there.
 */
export const KITS_USED = ["two", "shared", "far", "with-player", "demonstration"] as const;
export type KitsUsed = (typeof KITS_USED)[number];

/** Metres in which phrases are traded; *heard*: the one the first player's own pulse is heard in. */
export const TRADED_METRES = {
  "4/4": FOUR_FOUR,
  "3/4": { numerator: 3, denominator: 4 },
  "5/4": { numerator: 5, denominator: 4 },
  "6/8": { numerator: 6, denominator: 8 },
  "12/8": { numerator: 12, denominator: 8 },
  "7/8": { numerator: 7, denominator: 8 },
  heard: null,
} as const satisfies Readonly<Record<string, Metre | null>>;
export type TradedMetre = keyof typeof TRADED_METRES;
const METRE_IDS = Object.keys(TRADED_METRES) as TradedMetre[];

const sentences = z.array(z.string().max(400)).max(12).readonly();

export const SLOWEST_BPM = 40;
export const FASTEST_BPM = 240;

export const tradingSetSchema = z
  .object({
    form: z.enum(FORMS),
    aim: z.enum(AIMS),
    time: z.enum(TIMES),
    kits: z.enum(KITS_USED),
    metre: z.enum(METRE_IDS),
    /** Both keep the groove between two exchanges. */
    groove: z.boolean(),
    tempoBpm: z.number().min(SLOWEST_BPM).max(FASTEST_BPM),
  })
  .readonly();
export type TradingSet = z.infer<typeof tradingSetSchema>;

export const tradingEventSchema = z.discriminatedUnion("kind", [
  z.object({ kind: z.literal("set-out"), set: tradingSetSchema }).readonly(),
  /** The form begins from its top. */
  z.object({ kind: z.literal("form-began") }).readonly(),
  z
    .object({
      kind: z.literal("exchanged"),
      aim: z.enum(AIMS),
      calls: sideSchema,
      /** Whose answer it was; `null` for nobody of the Roster. */
      by: playerIdSchema.nullable(),
      met: z.boolean().nullable(),
      rhythm: z.boolean(),
      sound: z.boolean(),
      /** How far the answer stood from where the call left the time; negative ahead. */
      handOverMs: z.number().nullable(),
      says: sentences,
      timeline: exchangeTimelineSchema,
    })
    .readonly(),
  z.object({ kind: z.literal("form-over"), says: sentences }).readonly(),
  /** It was broken off: its exchanges stay. */
  z.object({ kind: z.literal("form-left") }).readonly(),
  z.object({ kind: z.literal("turned-round") }).readonly(),
]);
export type TradingEvent = z.infer<typeof tradingEventSchema>;

export type Exchanged = Omit<Extract<TradingEvent, { kind: "exchanged" }>, "kind">;

export interface Trading {
  readonly set: TradingSet;
  /** Who calls. */
  readonly calls: Side;
  /** Whether a form is under way. A program that is opened again begins it from its top. */
  readonly stage: "between" | "on" | "told";
  /** Of the form that is on, or was the last. */
  readonly exchanges: readonly Exchanged[];
  /** What was said of the last form as a whole. */
  readonly says: readonly string[];
  /** All exchanges of the round. */
  readonly past: readonly Exchanged[];
}

export const FIRST_SET: TradingSet = {
  form: "twos",
  aim: "echo",
  time: "click",
  kits: "with-player",
  metre: "4/4",
  groove: false,
  tempoBpm: 92,
};

export const NEW_TRADING: Trading = {
  set: FIRST_SET,
  calls: 0,
  stage: "between",
  exchanges: [],
  says: [],
  past: [],
};

export const tradingAfter: (own: Trading, event: TradingEvent) => Trading = produce(
  (own: Draft<Trading>, event: TradingEvent) => {
    switch (event.kind) {
      case "set-out":
        if (own.stage !== "on") own.set = event.set;
        return;
      case "form-began":
        if (own.stage === "on") return;
        own.stage = "on";
        own.exchanges = [];
        own.says = [];
        return;
      case "exchanged": {
        if (own.stage !== "on") return;
        const { kind: _, ...exchanged } = event;
        own.exchanges.push(exchanged as Draft<Exchanged>);
        own.past.push(exchanged as Draft<Exchanged>);
        return;
      }
      case "form-over":
        if (own.stage !== "on") return;
        own.stage = "told";
        own.says = event.says as Draft<readonly string[]>;
        return;
      case "form-left":
        if (own.stage === "on") own.stage = own.exchanges.length > 0 ? "told" : "between";
        return;
      case "turned-round":
        if (own.stage === "on") return;
        own.calls = own.calls === 0 ? 1 : 0;
        return;
    }
  },
);

/** Four-four goes without saying. */
function metreWords(set: TradingSet): string {
  const metre = metreSaid(set);
  if (metre === null) return " in the metre that is heard";
  return metre === FOUR_FOUR ? "" : ` in ${metreName(metre)}`;
}

/** A free answer cannot be wrong, and so shows nothing that could be forgotten. */
function shownOf({ aim, by, met, says }: Exchanged): readonly Shown[] {
  if (met === null) return [];
  return [{ by, item: `trade:${aim}`, outcome: met ? "held" : "missed", words: says[0] ?? "" }];
}

export const tradingRules: RoundRules<Trading, TradingEvent> = {
  fresh: NEW_TRADING,
  after: tradingAfter,
  shown: ({ past }) => past.flatMap(shownOf),
  words: (own, event) => {
    switch (event.kind) {
      case "set-out":
        return `${FORM_NAMES[event.set.form]}${metreWords(event.set)}, ${event.set.tempoBpm} a minute; the answers: ${AIM_NAMES[event.set.aim].toLowerCase()}.`;
      case "form-began":
        return "The form begins.";
      case "exchanged":
        return event.says.join(" ");
      case "form-over":
        return event.says.join(" ");
      case "form-left":
        return own.stage === "on" ? "The form was left." : null;
      case "turned-round":
        return "Turned round: the other one calls.";
    }
  },
};

/** The metre that was said; `null` where the first player's own is to be heard. Who keeps the time has to know it. */
export function metreSaid({ metre, time }: Pick<TradingSet, "metre" | "time">): Metre | null {
  return TRADED_METRES[metre] ?? (time === "first-player" ? null : FOUR_FOUR);
}

/** The aim of an exchange: those that were dealt go round; the two who only show how it goes do one of each. */
export function aimOf({ kits, aim }: TradingSet, exchange: number, dealt: Dealt | null = null): Aim {
  const aims = AIMS.filter((each) => dealt?.items.includes(`trade:${each}`));
  if (kits !== "demonstration") return aims[exchange % Math.max(1, aims.length)] ?? aim;
  return AIMS[Math.min(exchange, AIMS.length - 1)] ?? aim;
}

/** Who answers: the students of the lesson in their order, the first one calling; nobody of the Roster where a player is not there. */
export function answererOf(
  { set: { kits }, calls }: Pick<Trading, "set" | "calls">,
  players: readonly PlayerId[],
): PlayerId | null {
  const answers: Side = calls === 0 ? 1 : 0;
  switch (kits) {
    case "two":
    case "shared":
      // One student alone trades with the teacher, and is the one who answers first.
      if (players.length < 2) return calls === 0 ? (players[0] ?? null) : null;
      return players[answers] ?? null;
    case "far":
    case "with-player":
      return answers === 0 ? (players[0] ?? null) : null;
    case "demonstration":
      return null;
  }
}
