/** Question: what did a round show? What held, what slipped, what was new. No count of it is a mark. */
import { itemName, type OwnNames } from "../../../engine/memory/index.ts";
import { OUTCOMES, type Outcome, type RoundState } from "../../../engine/session/index.ts";

/** One thing that was asked. */
export interface TallyLine {
  readonly name: string;
  readonly studentId: string;
  /** What happened the last time it was asked in the round, in a clause. */
  readonly words: string;
}

export type Tally = Readonly<Record<Outcome, readonly TallyLine[]>>;

/** What stands under "Held" need not say so again. */
const HELD = /^Held\.? ?/;

/** Of each thing, for each student, the last time it was asked: that is how it stands when the round ends. */
export function tallyOf({ tally, takes }: Pick<RoundState, "tally" | "takes">, ownNames?: OwnNames): Tally {
  const last = new Map(tally.map((result) => [`${result.studentId} ${result.item}`, result]));
  const wasNew = (item: string, studentId: string): boolean =>
    tally.some((each) => each.item === item && each.studentId === studentId && each.outcome === "new");
  const lines: Record<Outcome, TallyLine[]> = { known: [], slipped: [], new: [] };
  for (const { item, outcome, studentId, evidence } of last.values()) {
    const called = takes.find(({ takeId }) => takeId === evidence.takeId)?.called;
    const line = {
      name: called ? called.name : itemName(item, ownNames).name,
      studentId,
      words: outcome === "known" ? evidence.words.replace(HELD, "") : evidence.words,
    };
    // Met for the first time and missed again is new still.
    lines[outcome === "slipped" && wasNew(item, studentId) ? "new" : outcome].push(line);
  }
  return lines;
}

export function isEmptyTally(tally: Tally): boolean {
  return OUTCOMES.every((outcome) => tally[outcome].length === 0);
}
