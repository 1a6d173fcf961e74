/**
 * Question: which cards lie in a deck for this student?
 *
 * Method: what is due and what the teacher put on the list comes first, the most faded first; beside it some that are new,
 * never so many that they are not held (retrieval of what was met before is what a deck is for: Roediger & Karpicke 2006);
 * the rest is filled with what was met and is not due yet, or, for who has met little, with more signs of the level. Then
 * all is mixed, an old card first, and jokers are slipped in at the teacher's rate. A set that was dealt to the round lies
 * before all that, in its order.
 */
import { RHYTHMS, SIGNS } from "../catalogue/index.ts";
import { type CardId, cardIdSchema, type Dealt, type DeckCard, faceOf, shuffled } from "../rounds/index.ts";
import { LEVELS, type Level } from "../score/index.ts";
import type { Chance } from "../units/index.ts";
import type { ItemId } from "./item.ts";
import type { ListEntry, NextTimeList } from "./nextTime.ts";

/** At most this share of a deck is new, while there is anything else. Our choice. */
const MOST_NEW_SHARE = 0.25;

export interface DeckQuestion {
  /** The student's list; `null` for nobody in particular. */
  readonly list: Pick<NextTimeList, "refresh" | "new"> | null;
  /** What was dealt to the round lies first; on a bad day it is all there is. */
  readonly dealt: Dealt | null;
  /** Items this student has met, due or not. */
  readonly met: readonly ItemId[];
  readonly level: Level;
  /** Cards besides jokers. */
  readonly count: number;
  /** Whether rhythms to be struck are among them. */
  readonly rhythms: boolean;
  /** Jokers to a card, 0 to 1. */
  readonly jokerShare: number;
  /** The pictures there are for jokers. */
  readonly pictures: readonly string[];
  readonly chance: Chance;
}

/** A deck, the first card first. */
export function layDeck(question: DeckQuestion): readonly DeckCard[] {
  const { list, count, chance, dealt } = question;
  const due = reasoned(list?.refresh ?? [], "due", question);
  const listedNew = reasoned(list?.new ?? [], "new", question);
  const teachers = [...due, ...listedNew].filter(({ reason }) => reason === "teacher");
  const known = new Set<CardId>([...due, ...listedNew].map(({ card }) => card));
  const held = shuffled(
    question.met.flatMap((item): readonly DeckCard[] => cardOf(item, "held", question)),
    chance,
  ).filter(({ card }) => !known.has(card));
  for (const { card } of held) known.add(card);
  const fresh = [
    ...listedNew.filter(({ reason }) => reason === "new"),
    ...shuffled(ofLevel(question), chance).filter(({ card }) => !known.has(card)),
  ];
  const mostNew = Math.max(1, Math.floor(count * MOST_NEW_SHARE));
  const laid = dealtCards([...due, ...listedNew], question);
  if (dealt?.nothingElse && laid.length > 0) return withJokers(laid, question);
  const sure = [...teachers, ...due.filter(({ reason }) => reason === "due")].slice(0, count);
  const cards = withoutTwice([...sure, ...fresh.slice(0, mostNew), ...held, ...fresh.slice(mostNew)]).slice(
    0,
    count,
  );
  return withJokers(withoutTwice([...laid, ...oldFirst(shuffled(cards, chance))]).slice(0, count), question);
}

/** Each for the reason it is on the list, or else because it was held. */
function dealtCards(listed: readonly DeckCard[], question: DeckQuestion): readonly DeckCard[] {
  return (question.dealt?.items ?? []).flatMap((item) =>
    cardOf(item, "held", { rhythms: true }).map(
      (each) => listed.find(({ card }) => card === each.card) ?? each,
    ),
  );
}

function reasoned(
  entries: readonly ListEntry[],
  reason: "due" | "new",
  question: DeckQuestion,
): readonly DeckCard[] {
  return entries.flatMap(({ item, teacher }) =>
    cardOf(item, teacher === null ? reason : "teacher", question),
  );
}

/** The card of an item; none where it is not of this round, or is not wanted in it. */
function cardOf(
  item: ItemId,
  reason: DeckCard["reason"],
  { rhythms }: Pick<DeckQuestion, "rhythms">,
): readonly DeckCard[] {
  const card = cardIdSchema.safeParse(item).data;
  const face = card && faceOf(card);
  if (!card || !face || (face.kind === "rhythm" && !rhythms)) return [];
  return [{ card, reason }];
}

/** What a student of the level may meet: that of the level and of the years before it. */
function ofLevel({ level, rhythms }: DeckQuestion): readonly DeckCard[] {
  const reach = LEVELS.indexOf(level);
  return [...SIGNS, ...(rhythms ? RHYTHMS : [])]
    .filter((each) => LEVELS.indexOf(each.level) <= reach)
    .map(({ id }) => ({ card: `symbol:${id}`, reason: "new" }));
}

function withoutTwice(cards: readonly DeckCard[]): readonly DeckCard[] {
  return [...new Map(cards.map((each) => [each.card, each])).values()];
}

/** Something once held begins, where there is anything. */
function oldFirst(cards: readonly DeckCard[]): readonly DeckCard[] {
  const first = cards.find(({ reason }) => reason !== "new");
  return first ? [first, ...cards.filter((each) => each !== first)] : cards;
}

/** After each card a joker by chance, never before the first; no picture twice while there are others. */
function withJokers(
  cards: readonly DeckCard[],
  { jokerShare, pictures, chance }: Pick<DeckQuestion, "jokerShare" | "pictures" | "chance">,
): readonly DeckCard[] {
  let left: readonly string[] = [];
  return cards.flatMap((each): readonly DeckCard[] => {
    if (pictures.length === 0 || chance() >= jokerShare) return [each];
    if (left.length === 0) left = shuffled(pictures, chance);
    const [picture = "", ...others] = left;
    left = others;
    return [each, { card: `joker:${picture}`, reason: "joker" }];
  });
}
