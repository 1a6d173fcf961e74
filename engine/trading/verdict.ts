/**
 * Question: what is said of an answer, by what it was meant to be?
 * An echo, or one thing moved, is laid beside its call; what is free, or finishes a phrase, is described.
 */
import type { Level } from "../score/index.ts";
import { type Aim, aimMet } from "./aim.ts";
import type { Comparison } from "./compare.ts";
import { aimWords, answerWords, comparisonWords } from "./comparisonWords.ts";
import { describeFinish, type Finish } from "./finish.ts";
import { finishWords } from "./finishWords.ts";
import { describeAnswer, type FreeAnswer, type TurnPhrase } from "./freeAnswer.ts";

export interface Verdict {
  /** What it is like where it need not be like its call: a free answer, or the end of a phrase; else `null`. */
  readonly answered: FreeAnswer | null;
  /** How an open phrase was finished; `null` where that was not asked. */
  readonly finish: Finish | null;
  /** Whether it is what was meant; `null` where nothing can be wrong, or it cannot be told. */
  readonly met: boolean | null;
  /** What is said of it, a sentence each. */
  readonly says: readonly string[];
}

export function verdictOn(
  aim: Aim,
  comparison: Comparison,
  { call, answer, level }: { readonly call: TurnPhrase; readonly answer: TurnPhrase; readonly level: Level },
): Verdict {
  const finish = aim === "finish" ? describeFinish(call, answer, level) : null;
  const answered = finish?.end ?? (aim === "answer" ? describeAnswer(call, answer, level) : null);
  const met = aimMet(aim, comparison, finish);
  const says = finish
    ? finishWords(finish)
    : [answered ? answerWords(answered) : comparisonWords(comparison), aimWords(aim, comparison, met)];
  return { answered, finish, met, says: says.flatMap((sentence) => sentence ?? []) };
}
