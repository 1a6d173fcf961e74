/**
 * What all rounds that are kept step by step have in common: they begin with their players, are paused and taken up again,
 * pass from one player to the next, and end. What happens in between is the round's own reducer.
 *
 * The round's state is nothing but the fold of its steps, so that one that was broken off goes on where it was, and Replay
 * shows it, without anything else being kept.
 */

import { z } from "zod";
import type { Naming } from "../../catalogue/index.ts";

/** A student by the id of the Roster. */
export const playerIdSchema = z
  .string()
  .regex(/^[A-Za-z0-9][A-Za-z0-9._/~:-]*$/)
  .max(120);
export type PlayerId = z.infer<typeof playerIdSchema>;

/** More than these cannot all be heard in one round. Our choice. */
export const MOST_PLAYERS = 6;

/** Who answers: one after the other, or everybody to the same question. */
export const ANSWERING = ["in-turn", "all-at-once"] as const;
export type Answering = (typeof ANSWERING)[number];

/** Kinds of what can be known. */
export const ITEM_KINDS = [
  "style",
  "style-name",
  "fill",
  "fill-name",
  "rudiment",
  "order",
  "sticking",
  "symbol",
  "sound",
  "syllable",
  "trade",
] as const;

/** Kind and own id of what can be known. */
export const shownItemSchema = z.templateLiteral([z.enum(ITEM_KINDS), ":", z.string().min(1).max(120)]);
export type ShownItem = z.infer<typeof shownItemSchema>;

/** More are not dealt to one round: nobody hears the tally of more. Our choice. */
export const MOST_DEALT = 8;

/** A set that was dealt to the round: it begins with these. */
export const dealtSchema = z
  .object({
    /** In the order they are asked. */
    items: z.array(shownItemSchema).min(1).max(MOST_DEALT).readonly(),
    /** On a bad day: these over again, and nothing that was not dealt. */
    nothingElse: z.boolean(),
  })
  .readonly();
export type Dealt = z.infer<typeof dealtSchema>;

export const frameEventSchema = z.discriminatedUnion("kind", [
  z
    .object({
      kind: z.literal("began"),
      /** None where nobody in particular plays. */
      players: z.array(playerIdSchema).max(MOST_PLAYERS).readonly(),
      answering: z.enum(ANSWERING),
      dealt: dealtSchema.exactOptional(),
    })
    .readonly(),
  z.object({ kind: z.literal("paused") }).readonly(),
  z.object({ kind: z.literal("resumed") }).readonly(),
  /** It is the next player's turn. */
  z.object({ kind: z.literal("passed-on") }).readonly(),
  z.object({ kind: z.literal("stopped") }).readonly(),
]);
export type FrameEvent = z.infer<typeof frameEventSchema>;

/** A round as it stands. `own` is what the round's own reducer keeps. */
export interface Play<Own> {
  readonly stage: "ready" | "running" | "paused" | "over";
  readonly players: readonly PlayerId[];
  readonly answering: Answering;
  /** The place among the players of the one whose turn it is. */
  readonly turn: number;
  /** What it begins with; `null` where it asks as it sees fit. */
  readonly dealt: Dealt | null;
  readonly own: Own;
}

/** What a round showed of one thing that a player may know. */
export interface Shown {
  /** `null`: the teacher, or nobody in particular. */
  readonly by: PlayerId | null;
  readonly item: ShownItem;
  /** `faded`: the player met it once, and has not got it now; `not-met`: the player has never met it. */
  readonly outcome: "held" | "missed" | "faded" | "not-met";
  /** What happened, in a clause for the teacher. */
  readonly words: string;
}

/** What a round is, besides its frame. */
export interface RoundRules<Own, Event> {
  readonly fresh: Own;
  /** Events that come too late change nothing: the same state is given back. */
  readonly after: (own: Own, event: Event) => Own;
  /** What was shown so far, in the order it was. It only grows. */
  readonly shown: (own: Own) => readonly Shown[];
  /** A step in a sentence, for Replay, signs named as they are here; `null` for what is not worth a line. */
  readonly words: (own: Own, event: Event, naming: Naming) => string | null;
}

export function freshPlay<Own, Event>({ fresh }: RoundRules<Own, Event>): Play<Own> {
  return { stage: "ready", players: [], answering: "in-turn", turn: 0, dealt: null, own: fresh };
}

const FRAME_KINDS: ReadonlySet<string> = new Set(
  frameEventSchema.options.flatMap((each) => [...each.unwrap().shape.kind.values]),
);

function isOfFrame(event: { readonly kind: string }): event is FrameEvent {
  return FRAME_KINDS.has(event.kind);
}

/** The round after one more step; the same object where the step changes nothing. */
export function playAfter<Own, Event extends { readonly kind: string }>(
  rules: RoundRules<Own, Event>,
  play: Play<Own>,
  event: Event | FrameEvent,
): Play<Own> {
  if (!isOfFrame(event)) {
    if (play.stage !== "running") return play;
    const own = rules.after(play.own, event);
    return own === play.own ? play : { ...play, own };
  }
  switch (event.kind) {
    case "began":
      if (play.stage !== "ready") return play;
      return {
        ...play,
        stage: "running",
        players: event.players,
        answering: event.answering,
        dealt: event.dealt ?? null,
      };
    case "paused":
      return play.stage === "running" ? { ...play, stage: "paused" } : play;
    case "resumed":
      return play.stage === "paused" ? { ...play, stage: "running" } : play;
    case "passed-on":
      if (play.stage !== "running" || play.players.length < 2) return play;
      return { ...play, turn: (play.turn + 1) % play.players.length };
    case "stopped":
      return play.stage === "running" || play.stage === "paused" ? { ...play, stage: "over" } : play;
  }
}

/** The player whose turn it is; `null` where nobody in particular plays. */
export function playerInTurn({ players, turn }: Pick<Play<unknown>, "players" | "turn">): PlayerId | null {
  return players[turn] ?? null;
}

/** Who is asked next: everybody, or the one whose turn it is; `null` where nobody in particular plays. */
export function playersAsked(
  play: Pick<Play<unknown>, "players" | "turn" | "answering">,
): readonly (PlayerId | null)[] {
  const isOfAll = play.answering === "all-at-once" && play.players.length > 0;
  return isOfAll ? play.players : [playerInTurn(play)];
}

/**
 * What was dealt and comes next: each in its order once, and then, where nothing else is to be asked, the one that was asked
 * least; `null` where the round goes on as it sees fit.
 *
 * @param asked all that was asked so far, each as often as it was.
 * @param canAsk what was dealt may be there no longer: it is passed over.
 */
export function dealtNext(
  dealt: Dealt | null,
  asked: readonly ShownItem[],
  canAsk: (item: ShownItem) => boolean = () => true,
): ShownItem | null {
  const items = dealt?.items.filter(canAsk) ?? [];
  const times = items.map((item) => asked.filter((each) => each === item).length);
  const fewest = Math.min(...times);
  if (fewest > 0 && !dealt?.nothingElse) return null;
  return items[times.indexOf(fewest)] ?? null;
}
