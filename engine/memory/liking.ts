/**
 * Question: which rounds does this student like?
 *
 * Nobody is asked. It is taken from the log: what was played most in the latest lessons. A round counts once, however much
 * was asked in it, and one of an older lesson counts as much as one of the latest; the round played most is liked most.
 * Whether the student or the teacher chose a round, or Five Left itself, the results do not say; so liking only tips the lot
 * (`deal.ts`): what is asked in the round liked most is drawn as if it counted twice.
 */
import type { RoundKind } from "../session/index.ts";
import { roundOf } from "./item.ts";
import { inOrder, type Result } from "./result.ts";

/** The latest days with a lesson say how it is now. Our choice: a season of weekly ones. */
const LATEST_DAYS = 12;

/** How much a round is liked, 0 to 1: 1 is the one played most, 0 one never played. */
export type Liking = (round: RoundKind) => number;

/** Where nothing is known of anybody. */
export const LIKES_ALL: Liking = () => 0;

/** @param results of one student. */
export function likingOf(results: readonly Result[]): Liking {
  const days = [...new Set(inOrder(results).map(({ day }) => day))].slice(-LATEST_DAYS);
  const played = new Map<RoundKind, Set<string>>();
  for (const { item, day, evidence } of results) {
    const round = roundOf(item);
    if (round === null || !days.includes(day)) continue;
    played.set(round, (played.get(round) ?? new Set()).add(evidence.roundId));
  }
  const most = Math.max(1, ...[...played.values()].map(({ size }) => size));
  return (round) => (played.get(round)?.size ?? 0) / most;
}
