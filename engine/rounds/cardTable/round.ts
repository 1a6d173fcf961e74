/**
 * Card Table: cards are turned up one by one, and named, chosen among four, or struck.
 *
 * A card is left as known, slipped, or never met. What was right shows at once; what was not shows when the card is laid
 * away, since until then the teacher, who heard what was said, may say that it was right.
 */

import { type Draft, produce } from "immer";
import { z } from "zod";
import type { Naming } from "../../catalogue/index.ts";
import { type PlayerId, playerIdSchema, type RoundRules, type Shown } from "../frame/play.ts";
import { type CardId, cardIdSchema, cardName, faceOf } from "./card.ts";
import { CHOICES } from "./choices.ts";

/** Who answers: the student; or, turned round, the teacher, to whom the student shows the cards. */
export const CARD_ROLES = ["student-answers", "teacher-answers"] as const;
export type CardRoles = (typeof CARD_ROLES)[number];

/** Why a card is in the deck. */
export const CARD_REASONS = ["due", "teacher", "new", "held", "joker", "slipped-in", "put-back"] as const;
export type CardReason = (typeof CARD_REASONS)[number];

export const CARD_OUTCOMES = ["known", "slipped", "never-met"] as const;
export type CardOutcome = (typeof CARD_OUTCOMES)[number];

/** More cards than these are no round. Our choice. */
export const MOST_CARDS = 60;
/** Longer names are not read. */
export const LONGEST_ANSWER = 80;
/** A card that is put back comes again after so many others: late enough to be recalled, not repeated. Our choice. */
export const CARDS_UNTIL_AGAIN = 3;

const player = playerIdSchema.nullable();
const deckCardSchema = z.object({ card: cardIdSchema, reason: z.enum(CARD_REASONS) }).readonly();
export type DeckCard = z.infer<typeof deckCardSchema>;

export const cardAnswerSchema = z.discriminatedUnion("way", [
  /** What was typed, and which card it names; `null` where it names none. */
  z
    .object({
      way: z.literal("word"),
      given: z.string().max(LONGEST_ANSWER),
      meant: cardIdSchema.nullable(),
    })
    .readonly(),
  z
    .object({
      way: z.literal("choice"),
      meant: cardIdSchema,
      /** As it stood on the table. */
      named: z.string().min(1).max(200).optional(),
    })
    .readonly(),
  /** Whether it was struck as written, and what differed, in a clause. */
  z.object({ way: z.literal("struck"), held: z.boolean(), words: z.string().max(300) }).readonly(),
  /** Said aloud, and judged by the teacher. */
  z.object({ way: z.literal("said"), outcome: z.enum(CARD_OUTCOMES) }).readonly(),
]);
export type CardAnswer = z.infer<typeof cardAnswerSchema>;

export const cardTableEventSchema = z.discriminatedUnion("kind", [
  /** Cards are put under those that lie there. */
  z
    .object({ kind: z.literal("deck-laid"), cards: z.array(deckCardSchema).max(MOST_CARDS).readonly() })
    .readonly(),
  /** The teacher slips in a card known to be new: it is the next one. */
  z.object({ kind: z.literal("slipped-in"), card: cardIdSchema }).readonly(),
  /** The next card is turned up. */
  z
    .object({
      kind: z.literal("turned-up"),
      /** Four names to choose from, the right one among them; none where it is to be named freely or struck. */
      choices: z.array(cardIdSchema).max(CHOICES).readonly(),
      /** Whose answers are waited for: `null` is the teacher, or nobody in particular. */
      of: z.array(player).min(1).readonly(),
    })
    .readonly(),
  z.object({ kind: z.literal("card-answered"), by: player, answer: cardAnswerSchema }).readonly(),
  /** The teacher's word over an answer that was taken otherwise. */
  z.object({ kind: z.literal("overruled"), by: player, outcome: z.enum(CARD_OUTCOMES) }).readonly(),
  /** The card that was answered comes once more, a few cards later. */
  z.object({ kind: z.literal("put-back") }).readonly(),
  /** The card is laid away; answers that are still waited for count for nothing. */
  z.object({ kind: z.literal("laid-away") }).readonly(),
  z.object({ kind: z.literal("cards-turned-round") }).readonly(),
]);
export type CardTableEvent = z.infer<typeof cardTableEventSchema>;

export interface AnswerToCard {
  readonly by: PlayerId | null;
  readonly answer: CardAnswer;
  readonly outcome: CardOutcome;
  /** Whether what it shows has been shown. */
  readonly isShown: boolean;
}

/** The card that lies open. */
export interface OpenCard {
  readonly card: CardId;
  readonly reason: CardReason;
  readonly choices: readonly CardId[];
  readonly roles: CardRoles;
  /** Nobody's answer is waited for where it is a joker. */
  readonly of: readonly (PlayerId | null)[];
  readonly answers: readonly AnswerToCard[];
  readonly isPutBack: boolean;
}

export interface CardTable {
  readonly roles: CardRoles;
  /** What is still to come, the next one first. */
  readonly deck: readonly DeckCard[];
  readonly open: OpenCard | null;
  /** Cards that were turned up, the open one among them. */
  readonly turned: number;
  readonly shown: readonly Shown[];
}

export const NEW_CARD_TABLE: CardTable = {
  roles: "student-answers",
  deck: [],
  open: null,
  turned: 0,
  shown: [],
};

/** Whether an answer is still waited for: what the card is must not be shown. */
export function isCardOpen({ of, answers }: Pick<OpenCard, "of" | "answers">): boolean {
  return answers.length < of.length;
}

/** Who has not answered the card yet. */
export function stillToAnswerCard({
  of,
  answers,
}: Pick<OpenCard, "of" | "answers">): readonly (PlayerId | null)[] {
  return of.filter((each) => !answers.some(({ by }) => by === each));
}

/** How an answer to a card stands: a card known to be new that is missed was never met. */
export function outcomeOfAnswer(
  { card, reason }: Pick<OpenCard, "card" | "reason">,
  answer: CardAnswer,
): CardOutcome {
  const missed: CardOutcome = reason === "slipped-in" ? "never-met" : "slipped";
  switch (answer.way) {
    case "said":
      return answer.outcome;
    case "struck":
      return answer.held ? "known" : missed;
    default:
      return answer.meant === card ? "known" : missed;
  }
}

export const cardTableAfter: (own: CardTable, event: CardTableEvent) => CardTable = produce(
  (own: Draft<CardTable>, event: CardTableEvent) => {
    const { open } = own;
    switch (event.kind) {
      case "deck-laid":
        own.deck.push(...event.cards.slice(0, MOST_CARDS - own.deck.length));
        return;
      case "slipped-in":
        if (own.deck.length < MOST_CARDS) own.deck.unshift({ card: event.card, reason: "slipped-in" });
        return;
      case "turned-up":
        turnUp(own, event.choices, event.of);
        return;
      case "card-answered": {
        if (!open || !stillToAnswerCard(open).includes(event.by)) return;
        const outcome = outcomeOfAnswer(open, event.answer);
        open.answers.push({ by: event.by, answer: event.answer, outcome, isShown: false });
        if (outcome === "known") showAnswer(own, open, event.by);
        return;
      }
      case "overruled": {
        const given = open?.answers.find(({ by }) => by === event.by);
        if (!open || !given || given.outcome === event.outcome) return;
        given.outcome = event.outcome;
        given.isShown = false;
        if (event.outcome === "known") showAnswer(own, open, event.by);
        return;
      }
      case "put-back":
        if (
          !open ||
          open.of.length === 0 ||
          isCardOpen(open) ||
          open.isPutBack ||
          own.deck.length >= MOST_CARDS
        )
          return;
        open.isPutBack = true;
        own.deck.splice(CARDS_UNTIL_AGAIN, 0, { card: open.card, reason: "put-back" });
        return;
      case "laid-away":
        layAway(own);
        return;
      case "cards-turned-round":
        layAway(own);
        own.roles = own.roles === "student-answers" ? "teacher-answers" : "student-answers";
        return;
    }
  },
);

function turnUp(own: Draft<CardTable>, choices: readonly CardId[], of: readonly (PlayerId | null)[]): void {
  if (own.open && isCardOpen(own.open)) return;
  const [next] = own.deck;
  if (!next) return;
  layAway(own);
  own.deck.shift();
  own.turned += 1;
  own.open = {
    ...next,
    // Choices of another card, or without this one, are none.
    choices: choices.length === CHOICES && choices.includes(next.card) ? [...choices] : [],
    roles: own.roles,
    of: next.reason === "joker" ? [] : [...new Set(of)],
    answers: [],
    isPutBack: false,
  };
}

/** What was missed shows now. */
function layAway(own: Draft<CardTable>): void {
  const { open } = own;
  if (!open) return;
  for (const { by } of open.answers) showAnswer(own, open, by);
  own.open = null;
}

function showAnswer(own: Draft<CardTable>, open: Draft<OpenCard>, by: PlayerId | null): void {
  const given = open.answers.find((each) => each.by === by);
  if (!given || given.isShown) return;
  given.isShown = true;
  const { card } = open;
  // What the teacher answers shows nothing of a student; a joker nothing of anybody.
  if (open.roles === "teacher-answers" || card.startsWith("joker:")) return;
  const { outcome } = given;
  own.shown.push({
    by,
    item: card as Exclude<CardId, `joker:${string}`>,
    outcome: outcome === "known" ? "held" : outcome === "slipped" ? "missed" : "not-met",
    words: outcome === "known" ? "" : missedWords(given),
  });
}

/** What happened instead, in a clause. */
function missedWords({ answer, outcome }: Pick<AnswerToCard, "answer" | "outcome">): string {
  if (outcome === "never-met" && answer.way === "said") return "Never met before.";
  switch (answer.way) {
    case "word":
      return answer.given.trim() === "" ? "Not named." : `Named as "${answer.given.trim()}".`;
    case "choice":
      return `Taken for ${(answer.named ?? cardName(answer.meant, "us")).toLowerCase()}.`;
    case "struck":
      return answer.words;
    case "said":
      return "Not named.";
  }
}

export const cardTableRules: RoundRules<CardTable, CardTableEvent> = {
  fresh: NEW_CARD_TABLE,
  after: cardTableAfter,
  shown: ({ shown }) => shown,
  words: (own, event, naming) => {
    switch (event.kind) {
      case "turned-up": {
        const [next] = own.deck;
        return next ? `Turned up: ${faceWords(next.card, naming)}.` : null;
      }
      case "card-answered":
        return own.open ? answeredWords(own.open, event.answer, naming) : null;
      case "overruled":
        return `The teacher says: ${OUTCOME_WORDS[event.outcome]}.`;
      case "slipped-in":
        return `Slipped in: ${faceWords(event.card, naming)}.`;
      case "put-back":
        return "The card was put back.";
      case "cards-turned-round":
        return own.roles === "student-answers"
          ? "Turned round: the student shows the cards."
          : "Turned round again: the student answers.";
      default:
        return null;
    }
  },
};

export const OUTCOME_WORDS: Readonly<Record<CardOutcome, string>> = {
  known: "known",
  slipped: "slipped",
  "never-met": "never met",
};

function faceWords(card: CardId, naming: Naming): string {
  const name = cardName(card, naming);
  switch (faceOf(card)?.kind) {
    case "sticking":
      return `the hands of ${name}`;
    case "joker":
      return `a joker, ${name}`;
    default:
      return name.charAt(0).toLowerCase() + name.slice(1);
  }
}

function answeredWords(open: OpenCard, answer: CardAnswer, naming: Naming): string {
  const isRight = outcomeOfAnswer(open, answer) === "known";
  switch (answer.way) {
    case "word":
      return `Named: ${answer.given.trim() || "nothing"}${isRight ? "" : ", which is something else"}.`;
    case "choice":
      return `Chosen: ${cardName(answer.meant, naming)}${isRight ? "" : ", which is something else"}.`;
    case "struck":
      return isRight ? "Struck as written." : `Struck: ${answer.words}`;
    case "said":
      return `Said aloud: ${OUTCOME_WORDS[answer.outcome]}.`;
  }
}
