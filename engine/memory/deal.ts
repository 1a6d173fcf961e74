/**
 * Question: which rounds fit the minutes that are left, out of what is fading for this student, what is new, and what this
 * student likes?
 *
 * Method: what is due is drawn by lot, each weighed by the chance that it is forgotten (so that the most faded comes up
 * most often, and not the same set each time) and by how much its round is liked (`liking.ts`: at most twice as much as a
 * round never played), into rounds that ask it; one new item is mixed in, the one that came up first. Different rounds are
 * mixed rather than one made long: mixed practice is recalled better later, though it feels harder (Rohrer & Taylor,
 * Instructional Science 35 (2007) 481–498; from memory). All in whole minutes, and never more than there are.
 *
 * On a bad day nothing of that counts: only what goes well is dealt (`goesWell.ts`), by lot and by liking, nothing new, and
 * the rounds ask nothing else.
 */
import { MOST_DEALT } from "../rounds/index.ts";
import type { RoundKind } from "../session/index.ts";
import type { Chance } from "../units/index.ts";
import type { GoingWell } from "./goesWell.ts";
import { type ItemId, minutesOf, ROUND_NAMES, roundOf } from "./item.ts";
import { LIKES_ALL, type Liking } from "./liking.ts";
import type { ListEntry, NextTimeList } from "./nextTime.ts";
import { chanceWords } from "./schedule.ts";

/** A round has a beginning and a tally: shorter is not worth sitting up for. The product's own limits, in minutes. */
export const SHORTEST_ROUND_MINUTES = 2;
export const LONGEST_ROUND_MINUTES = 10;
/** What the teacher put there weighs as much as what is forgotten for sure. Our choice: the teacher knows why. */
const TEACHERS_WEIGHT = 1;
/** Nothing on the list is left without a chance to be drawn. Our choice. */
const LEAST_WEIGHT = 0.02;
/** On a bad day what is as likely forgotten as this, or likelier, does not go well. Our choice: what the list leaves alone. */
const GOES_WELL_BELOW = 0.1;
/** Where fewer than these go so well, the likeliest remembered do. Our choice. */
const FEWEST_GOING_WELL = 6;

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
  /** What is due; or, on a bad day, what goes well and nothing else. */
  readonly of: "due" | "goes-well";
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
  readonly liking?: Liking;
  readonly chance: Chance;
}

export type BadDayQuestion = Omit<DealQuestion, "list"> & {
  /** The likeliest remembered first. */
  readonly goesWell: readonly GoingWell[];
};

/** A round while it is dealt. */
interface Hand {
  readonly round: RoundKind;
  readonly items: DealtItem[];
  minutes: number;
}

/** Deals. Nothing is dealt where fewer minutes are left than a round takes, or nothing on the list can be asked here. */
export function dealRounds(question: DealQuestion): Deal {
  const { refresh, fresh } = candidates(question);
  const [first, ...others] = refresh;
  // Something once held comes first, then the new one while the student is awake, then more of what is fading.
  const inTurn = [...(first ? [first] : []), ...fresh.slice(0, 1), ...others];
  return dealtFrom(inTurn, "due", question);
}

/** Deals for a bad day. Nothing is dealt where nothing goes well yet. */
export function dealBadDay(question: BadDayQuestion): Deal {
  const { goesWell, rounds, chance, liking = LIKES_ALL } = question;
  const askable = goesWell.flatMap(({ item, chanceForgotten }) => {
    const round = roundOf(item);
    if (round === null || !rounds.includes(round)) return [];
    return [{ item, round, why: "it held the last time", weight: liked(liking, round), chanceForgotten }];
  });
  const sure = askable.filter(({ chanceForgotten }) => chanceForgotten < GOES_WELL_BELOW);
  const best = sure.length >= FEWEST_GOING_WELL ? sure : askable.slice(0, FEWEST_GOING_WELL);
  return dealtFrom(drawnByLot(best, chance), "goes-well", question);
}

function dealtFrom(
  inTurn: readonly Candidate[],
  of: Deal["of"],
  { minutesLeft }: Pick<DealQuestion, "minutesLeft">,
): Deal {
  const hands: Hand[] = [];
  for (const each of inTurn) take(hands, each, Math.floor(minutesLeft));
  return {
    of,
    rounds: hands.map(({ round, items, minutes }) => ({ round, minutes, items })),
    minutes: total(hands),
  };
}

interface Candidate {
  readonly item: ItemId;
  readonly round: RoundKind;
  readonly why: string;
  /** How easily it is drawn. */
  readonly weight: number;
}

/** As a factor of a weight: 1 to 2. */
function liked(liking: Liking, round: RoundKind): number {
  return 1 + liking(round);
}

function candidates({ list, rounds, chance, liking = LIKES_ALL }: DealQuestion): {
  readonly refresh: readonly Candidate[];
  readonly fresh: readonly Candidate[];
} {
  const askable = (entries: readonly ListEntry[], why: (entry: ListEntry) => string): Candidate[] =>
    entries.flatMap((entry) => {
      const round = roundOf(entry.item);
      if (round === null || !rounds.includes(round)) return [];
      return [{ item: entry.item, round, why: why(entry), weight: weightOf(entry) * liked(liking, round) }];
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
    .map((each) => ({ each, key: chance() ** (1 / each.weight) }))
    .sort((a, b) => b.key - a.key)
    .map(({ each }) => each);
}

function weightOf({ teacher, chanceForgotten }: ListEntry): number {
  return teacher === null ? Math.max(LEAST_WEIGHT, chanceForgotten ?? 0) : TEACHERS_WEIGHT;
}

/** Puts it into its round, or opens one, where the minutes allow. */
function take(hands: Hand[], { item, round, why }: Candidate, minutesLeft: number): void {
  const open = hands.find((hand) => hand.round === round);
  const items = [...(open?.items ?? []), { item, why }];
  const minutes = roundMinutes(items);
  const whole = total(hands) - (open?.minutes ?? 0) + minutes;
  if (items.length > MOST_DEALT || minutes > LONGEST_ROUND_MINUTES || whole > minutesLeft) return;
  if (open) {
    open.items.push({ item, why });
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
 * dealWords({ of: "due", minutes: 4, rounds: [{ round: "card-table", minutes: 2, items: [] }, { round: "spotting", minutes: 2, items: [] }] }) // => "Card Table, 2 minutes; Spotting, 2 minutes."
 */
export function dealWords({ of, rounds }: Deal): string {
  if (rounds.length === 0)
    return of === "due" ? "Nothing fits the time that is left." : "Nothing is known to go well yet.";
  return `${rounds.map(({ round, minutes }) => `${ROUND_NAMES[round]}, ${minutes} minutes`).join("; ")}.`;
}
