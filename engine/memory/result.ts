/**
 * A result: what one round showed of one item. All that memory says is derived from results; nothing else is kept of it.
 */
import { OUTCOMES, type Outcome } from "../session/index.ts";
import { compareInstants, type Day } from "./day.ts";
import type { ItemId } from "./item.ts";

/** A result of the log, or one derived from a take, with the day it counts for. */
export interface Result {
  readonly item: ItemId;
  /** `known`: it held; `slipped`: met before and missed; `new`: it came up and had never been met. */
  readonly outcome: Outcome;
  readonly studentId: string;
  /** When it was shown; ISO 8601 in UTC. */
  readonly at: string;
  /** The day its lesson began, in the studio's own zone: a lesson past midnight is one day. */
  readonly day: Day;
  readonly evidence: {
    readonly words: string;
    readonly roundId: string;
    readonly takeId?: string | undefined;
  };
}

/** Results in the order they were shown, whatever the order they are handed over in. */
export function inOrder(results: readonly Result[]): readonly Result[] {
  return [...results].sort((a, b) => order(a.day, b.day) || compareInstants(a.at, b.at) || tieBreak(a, b));
}

function order(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

/** Two results of one moment: the worse one first, so that the order they came in decides nothing. */
function tieBreak(a: Result, b: Result): number {
  const worse = worseness(b.outcome) - worseness(a.outcome);
  return worse || order(a.item, b.item) || order(a.evidence.words, b.evidence.words);
}

function worseness(outcome: Outcome): number {
  return OUTCOMES.indexOf(outcome);
}

/** Results by their items, each item's in order; items in the order they were first met. */
export function byItem(results: readonly Result[]): ReadonlyMap<ItemId, readonly Result[]> {
  return gathered(results, ({ item }) => item);
}

/** Results by the days they fall on, in order. */
export function byDay(results: readonly Result[]): ReadonlyMap<Day, readonly Result[]> {
  return gathered(results, ({ day }) => day);
}

function gathered<Key>(
  results: readonly Result[],
  keyOf: (result: Result) => Key,
): ReadonlyMap<Key, readonly Result[]> {
  const groups = new Map<Key, Result[]>();
  for (const result of inOrder(results)) {
    const group = groups.get(keyOf(result));
    if (group) group.push(result);
    else groups.set(keyOf(result), [result]);
  }
  return groups;
}
