/**
 * What a round and a lesson leave behind when they end: live, and for a lesson that was broken off, by the same rule.
 */
import { resultOfTake } from "../memory/index.ts";
import { type Shown, stepByStep } from "../rounds/index.ts";
import {
  type ItemId,
  type ItemResult,
  instantAfter,
  type LessonState,
  type Outcome,
  type RoundState,
  type SessionEvent,
} from "../session/index.ts";

/** Whether a student had met an item before the lesson. */
export type WasMet = (studentId: string, item: ItemId) => boolean;

/**
 * What the judged takes of a round show of what its students know, in their order.
 *
 * A take that the player did not end (the program fell) counts only where it held: what was not played cannot be held
 * against anybody.
 */
export function tallyOfTakes({ takes }: Pick<RoundState, "takes">, wasMet: WasMet): readonly ItemResult[] {
  const tally: ItemResult[] = [];
  for (const { judgement, brokenOff, toSeq } of takes) {
    if (!judgement) continue;
    const isWhole = toSeq !== null && !brokenOff;
    const { studentId } = judgement.summary;
    const isMet = (item: ItemId) =>
      tally.some((result) => result.item === item && result.studentId === studentId) ||
      (studentId !== null && wasMet(studentId, item));
    const result = resultOfTake(judgement.summary, isMet);
    if (result && (isWhole || result.outcome === "known")) tally.push(result);
  }
  return tally;
}

/**
 * What the steps of a round showed of what its players know, in their order; of nobody in particular nothing is kept.
 *
 * @param beganAt the instant the lesson began.
 */
export function tallyOfSteps(
  { round, roundId, steps }: Pick<RoundState, "round" | "roundId" | "steps">,
  wasMet: WasMet,
  beganAt: string,
): readonly ItemResult[] {
  const tally: ItemResult[] = [];
  const [first] = steps;
  if (!first || first.step.round !== round) return tally;
  const stepped = stepByStep(
    first.step.round,
    steps.map(({ step }) => step),
  );
  stepped.forEach(({ shown }, index) => {
    const at = instantAfter(beganAt, steps[index]?.time ?? 0);
    for (const { by, item, outcome, words } of shown) {
      if (by === null) continue;
      const isMet = wasMet(by, item) || tally.some((each) => each.item === item && each.studentId === by);
      tally.push({
        item,
        outcome: outcomeOf(outcome, isMet),
        studentId: by,
        at,
        evidence: { words: words.slice(0, LONGEST_WORDS), roundId },
      });
    }
  });
  return tally;
}

/** As the schema of a result has it. */
const LONGEST_WORDS = 400;

function outcomeOf(outcome: Shown["outcome"], isMet: boolean): Outcome {
  if (outcome === "held") return "known";
  if (outcome === "faded") return "slipped";
  return outcome === "missed" && isMet ? "slipped" : "new";
}

/** All that a round showed when it ends: its takes and its steps. */
export function tallyOfRound(round: RoundState, wasMet: WasMet, beganAt: string): readonly ItemResult[] {
  return [...tallyOfTakes(round, wasMet), ...tallyOfSteps(round, wasMet, beganAt)];
}

/**
 * The events that end a lesson where it was last heard: each round that is open, with its tally, then the lesson. None for
 * a lesson that has not begun or has ended.
 */
export function endingEvents(state: LessonState, wasMet: WasMet): readonly SessionEvent[] {
  const { began, stage, time } = state;
  if (!began || stage === "ended") return [];
  const open = state.rounds.filter(({ to }) => to === null);
  const rounds = open.map((round, index): SessionEvent => {
    const { lane, roundId } = round;
    const tally = tallyOfRound(round, wasMet, began.at);
    return { kind: "round-ended", seq: state.seq + 1 + index, time, lane, roundId, tally };
  });
  const seq = state.seq + 1 + rounds.length;
  return [...rounds, { kind: "lesson-ended", seq, time, lane: 0, at: instantAfter(began.at, time) }];
}
