/**
 * Question: was a phrase whose end was left open finished?
 *
 * The caller stops before the turn is over; the other takes the phrase up there, plays on as long as the call's turn was, and
 * lands on the one. Call and answer are one phrase: what is struck between them is told in beats about the line at which the
 * turn passes on.
 */
import type { Level } from "../score/index.ts";
import { beatsPerBar } from "../score/index.ts";
import { beatSeconds } from "../units/index.ts";
import { describeAnswer, type FreeAnswer, type TurnPhrase, type TurnSpan } from "./freeAnswer.ts";
import { phraseStrokes } from "./phraseStrokes.ts";

export interface Finish {
  /** Beats from the call's last stroke to the line: 0 where it went on to its very end; `null` where nothing was called. */
  readonly leftOpenBeats: number | null;
  /** Beats from the line to the first stroke of the end: negative before it; `null` where nothing was struck. */
  readonly takenUpBeats: number | null;
  /** Taken up where the call stopped: after it, and no later than within the first beat of the turn. */
  readonly takenUp: boolean;
  /** What the end is like. */
  readonly end: FreeAnswer;
  /** Taken up, as long as its turn, landing on the one; `null` where only the landing cannot be told. */
  readonly finished: boolean | null;
}

/** A stroke so near to the second beat of the turn is meant for it: then the first one was let pass. Our choice. */
const LET_PASS_BEATS = 7 / 8;

/**
 * Describes the end of a phrase beside its beginning, each in its own turn: the end of the call's turn and the beginning of the
 * answer's are one line.
 */
export function describeFinish(call: TurnPhrase, answer: TurnPhrase, level: Level): Finish {
  const last = phraseStrokes(call.hits).at(-1);
  const first = phraseStrokes(answer.hits)[0];
  const leftOpenBeats = last
    ? Math.max(0, call.turn.bars * beatsPerBar(call.turn.metre) - beatsInto(last.time, call.turn))
    : null;
  const takenUpBeats = first ? beatsInto(first.time, answer.turn) : null;
  const takenUp = takenUpBeats !== null && takenUpBeats < LET_PASS_BEATS;
  const end = describeAnswer(call, answer, level);
  const goesOn = takenUp && end.length === "as long";
  return { leftOpenBeats, takenUpBeats, takenUp, end, finished: goesOn ? end.landsOnOne : false };
}

function beatsInto(time: number, { from, tempoBpm }: TurnSpan): number {
  return (time - from) / beatSeconds(tempoBpm);
}
