/**
 * Question: which rounds fit the minutes that are left, out of what is fading for this student?
 *
 * Method: what is due is drawn by lot, each weighed by the chance that it is forgotten (so that the most faded comes up
 * most often, and not the same set each time), into rounds that ask it; one new item is mixed in. Different rounds are
 * mixed rather than one made long: mixed practice is recalled better later, though it feels harder (Rohrer & Taylor,
 * Instructional Science 35 (2007) 481–498; from memory). All in whole minutes, and never more than there are.
 */
import type { RoundKind } from "../session/index.ts";
import type { Chance } from "../units/index.ts";
import { type ItemId, minutesOf, ROUND_NAMES, roundOf } from "./item.ts";
import type { ListEntry, NextTimeList } from "./nextTime.ts";
import { chanceWords } from "./schedule.ts";

/** A round has a beginning and a tally: shorter is not worth sitting up for. The product's own limits, in minutes. */
export const SHORTEST_ROUND_MINUTES = 2;
export const LONGEST_ROUND_MINUTES = 10;
/** More items in one round are more than a student can hear the tally of. Our choice. */
const MOST_ITEMS = 8;
/** What the teacher put there weighs as much as what is forgotten for sure. Our choice: the teacher knows why. */
const TEACHERS_WEIGHT = 1;
/** Nothing on the list is left without a chance to be drawn. Our choice. */
const LEAST_WEIGHT = 0.02;

export interface DealtItem {
  readonly item: ItemId;
  /** Why it is dealt: a clause. */
  readonly why: string;
}

export interface DealtRound {
  readonly round: RoundKind;
  readonly minutes: number;
  readonly items: readonly DealtItem[];
}

export interface Deal {
  readonly rounds: readonly DealtRound[];
  /** Whole minutes of the rounds together; never more than were left. */
  readonly minutes: number;
}

export interface DealQuestion {
  readonly list: Pick<NextTimeList, "refresh" | "new">;
  /** Until the lesson ends. */
  readonly minutesLeft: number;
  /** The rounds that can be played here: nothing is dealt into another one. */
  readonly rounds: readonly RoundKind[];
  readonly chance: Chance;
}

/** A round while it is dealt. */
interface Hand {
  readonly round: RoundKind;
  readonly items: DealtItem[];
  minutes: number;
}

/** Deals. Nothing is dealt where fewer minutes are left than a round takes, or nothing on the list can be asked here. */
export function dealRounds(question: DealQuestion): Deal {
  const hands: Hand[] = [];
  const { refresh, fresh } = candidates(question);
  const minutesLeft = Math.floor(question.minutesLeft);
  const [first, ...others] = refresh;
  // Something once held comes first, then the new one while the student is awake, then more of what is fading.
  const inTurn = [...(first ? [first] : []), ...fresh.slice(0, 1), ...others];
  for (const each of inTurn) take(hands, each, minutesLeft);
  return {
    rounds: hands.map(({ round, items, minutes }) => ({ round, minutes, items })),
    minutes: total(hands),
  };
}

interface Candidate {
  readonly entry: ListEntry;
  readonly round: RoundKind;
  readonly why: string;
}

function candidates({ list, rounds, chance }: DealQuestion): {
  readonly refresh: readonly Candidate[];
  readonly fresh: readonly Candidate[];
} {
  const askable = (entries: readonly ListEntry[], why: (entry: ListEntry) => string): Candidate[] =>
    entries.flatMap((entry) => {
      const round = roundOf(entry.item);
      return round !== null && rounds.includes(round) ? [{ entry, round, why: why(entry) }] : [];
    });
  const due = askable(list.refresh, refreshWhy);
  return { refresh: drawnByLot(due, chance), fresh: askable(list.new, newWhy) };
}

/**
 * Weighted drawing without putting back: each gets the key u^(1/weight), the largest key is drawn first.
 * Source: Efraimidis & Spirakis, Information Processing Letters 97 (2006) 181–185.
 */
function drawnByLot(candidates: readonly Candidate[], chance: Chance): readonly Candidate[] {
  return candidates
    .map((each) => ({ each, key: chance() ** (1 / weightOf(each.entry)) }))
    .sort((a, b) => b.key - a.key)
    .map(({ each }) => each);
}

function weightOf({ teacher, chanceForgotten }: ListEntry): number {
  return teacher === null ? Math.max(LEAST_WEIGHT, chanceForgotten ?? 0) : TEACHERS_WEIGHT;
}

/** Puts it into its round, or opens one, where the minutes allow. */
function take(hands: Hand[], { entry, round, why }: Candidate, minutesLeft: number): void {
  const open = hands.find((hand) => hand.round === round);
  const items = [...(open?.items ?? []), { item: entry.item, why }];
  const minutes = roundMinutes(items);
  const whole = total(hands) - (open?.minutes ?? 0) + minutes;
  if (items.length > MOST_ITEMS || minutes > LONGEST_ROUND_MINUTES || whole > minutesLeft) return;
  if (open) {
    open.items.push({ item: entry.item, why });
    open.minutes = minutes;
  } else {
    hands.push({ round, items, minutes });
  }
}

function roundMinutes(items: readonly DealtItem[]): number {
  const asked = items.reduce((sum, { item }) => sum + minutesOf(item), 0);
  return Math.max(SHORTEST_ROUND_MINUTES, Math.ceil(asked));
}

function total(hands: readonly Hand[]): number {
  return hands.reduce((sum, { minutes }) => sum + minutes, 0);
}

function refreshWhy({ teacher, chanceForgotten, evidence }: ListEntry): string {
  if (teacher !== null) return "you put it on the list";
  const slipped = evidence !== null && evidence.lastSlippedDay === evidence.lastDay;
  const gone = `chance it is gone: ${chanceWords(chanceForgotten ?? 0)}`;
  return slipped ? `missed last time; ${gone}` : gone;
}

function newWhy({ teacher }: ListEntry): string {
  return teacher === null ? "new: it came up and was never met before" : "new: you put it on the list";
}

/**
 * The deal in one sentence.
 *
 * @example
 * dealWords({ minutes: 4, rounds: [{ round: "card-table", minutes: 2, items: [] }, { round: "spotting", minutes: 2, items: [] }] }) // => "Card Table, 2 minutes; Spotting, 2 minutes."
 */
export function dealWords({ rounds }: Deal): string {
  if (rounds.length === 0) return "Nothing fits the time that is left.";
  return `${rounds.map(({ round, minutes }) => `${ROUND_NAMES[round]}, ${minutes} minutes`).join("; ")}.`;
}
