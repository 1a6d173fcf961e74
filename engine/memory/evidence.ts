/**
 * Question: what is there to say for an entry of the list? Counts and days from its results, and the sentence of the
 * latest one that tells most.
 */
import { agoWords, type Day, daysBetween } from "./day.ts";
import { inOrder, type Result } from "./result.ts";

export interface Evidence {
  /** Days on which it was asked. */
  readonly days: number;
  readonly known: number;
  readonly slipped: number;
  readonly firstDay: Day;
  readonly lastDay: Day;
  /** `null` when it never held. */
  readonly lastKnownDay: Day | null;
  /** `null` when it never slipped. */
  readonly lastSlippedDay: Day | null;
  /** What was said of it last: of the latest slip where it slipped last, else of the latest result. */
  readonly words: string;
  /** The take it was heard in, where there is one to open. */
  readonly takeId: string | null;
}

/** The evidence of one item; `null` without results. */
export function evidenceOf(results: readonly Result[]): Evidence | null {
  const ordered = inOrder(results);
  const [first] = ordered;
  const last = ordered.at(-1);
  if (!first || !last) return null;
  const lastKnown = ordered.findLast(({ outcome }) => outcome === "known");
  const lastSlipped = ordered.findLast(({ outcome }) => outcome === "slipped");
  return {
    days: new Set(ordered.map(({ day }) => day)).size,
    known: ordered.filter(({ outcome }) => outcome === "known").length,
    slipped: ordered.filter(({ outcome }) => outcome === "slipped").length,
    firstDay: first.day,
    lastDay: last.day,
    lastKnownDay: lastKnown?.day ?? null,
    lastSlippedDay: lastSlipped?.day ?? null,
    words: last.evidence.words,
    takeId: last.evidence.takeId ?? null,
  };
}

/**
 * The evidence in a sentence, as seen on a day.
 *
 * @example
 * const once = { days: 1, known: 1, slipped: 0, firstDay: "2026-03-02", lastDay: "2026-03-02", lastKnownDay: "2026-03-02", lastSlippedDay: null, words: "", takeId: null };
 * evidenceWords(once, "2026-03-23") // => "Held once, 3 weeks ago."
 */
export function evidenceWords(evidence: Evidence, today: Day): string {
  const { known, slipped, lastKnownDay, lastSlippedDay, firstDay } = evidence;
  const ago = (day: Day): string => agoWords(daysBetween(day, today));
  if (lastKnownDay === null && lastSlippedDay === null) return `First met ${ago(firstDay)}, not held yet.`;
  if (lastKnownDay === null)
    return `Missed ${times(slipped)}, ${lastOf(slipped)}${ago(lastSlippedDay ?? firstDay)}; not held yet.`;
  const held = `Held ${times(known)}, ${lastOf(known)}${ago(lastKnownDay)}`;
  if (lastSlippedDay === null) return `${held}.`;
  const missed = `missed ${times(slipped)}, ${lastOf(slipped)}${ago(lastSlippedDay)}`;
  return `${held}; ${missed}.`;
}

function lastOf(count: number): string {
  return count === 1 ? "" : "last ";
}

function times(count: number): string {
  if (count === 1) return "once";
  return count === 2 ? "twice" : `${count} times`;
}
