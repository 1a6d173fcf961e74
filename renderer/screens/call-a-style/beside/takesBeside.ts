/** Which earlier takes of a sitting can be laid beside the one just played, and which of them is. */
import type { Report } from "../../../../engine/grading/index.ts";
import type { Beside, JudgedTake, Sitting } from "../../../../engine/rounds/index.ts";
import { beatsPerBar, type Groove } from "../../../../engine/score/index.ts";
import { formatBars, formatTempo } from "../../../charts/figures.ts";
import { isAnother } from "../report/headingWords.ts";
import { isComparable } from "../report/leanFigure.ts";
import { calledName } from "../roundWords.ts";

/** A take that was measured against a groove. */
export interface MeasuredTake {
  readonly number: number;
  readonly styleId: string | null;
  readonly clicked: boolean;
  readonly groove: Groove;
  readonly report: Report;
}

/** The take just played, the earlier ones that can be laid beside it (the latest first), and the one that is. */
export interface TakesBeside {
  readonly now: MeasuredTake;
  readonly others: readonly MeasuredTake[];
  readonly chosen: MeasuredTake | undefined;
}

/** `undefined` where there is nothing to lay beside the take. */
export function takesBeside({ at, takes, beside }: Sitting): TakesBeside | undefined {
  const [last, ...earlier] = [...takes].reverse();
  const now = at.stage === "after" && at.judgement.hitCount > 0 && last ? measured(last) : undefined;
  if (!now) return undefined;
  const others = earlier.flatMap((take) => {
    const before = measured(take);
    return before && isLike(now, before) ? [before] : [];
  });
  if (others.length === 0) return undefined;
  return { now, others, chosen: chosenOf(others, beside) };
}

function measured({ number, styleId, judgement }: JudgedTake): MeasuredTake | undefined {
  const { compared, hearing, click } = judgement;
  if (!compared || !isComparable(compared.report) || isAnother(hearing, calledName({ styleId })))
    return undefined;
  const { groove, report } = compared;
  return { number, styleId, clicked: click !== null, groove, report };
}

/** The same style was called or the same groove was played, in bars of as many beats. */
function isLike(now: MeasuredTake, before: MeasuredTake): boolean {
  const isSame =
    now.groove.id === before.groove.id || (now.styleId !== null && now.styleId === before.styleId);
  return isSame && beatsPerBar(now.groove.metre) === beatsPerBar(before.groove.metre);
}

function chosenOf(others: readonly MeasuredTake[], beside: Beside): MeasuredTake | undefined {
  if (beside === "none") return undefined;
  return beside === "before" ? others[0] : others.find(({ number }) => number === beside);
}

/** What comes after the choice that is made, from the latest take back to the first, then none, then the latest again. */
export function nextBeside({ others, chosen }: TakesBeside): Beside {
  if (!chosen) return others[0]?.number ?? "none";
  return others[others.indexOf(chosen) + 1]?.number ?? "none";
}

/** "take 2" */
export function takeName({ number }: Pick<MeasuredTake, "number">): string {
  return `take ${number}`;
}

/**
 * A take in a list of them.
 *
 * @example
 * takeInShort(take) // => "take 2: 104 a minute, twelve bars, with the click"
 */
export function takeInShort(take: MeasuredTake): string {
  const { report, clicked } = take;
  return [
    `${takeName(take)}: ${report.tempoBpm === null ? "tempo not told" : formatTempo(report.tempoBpm)}`,
    formatBars(report.perBar.length),
    clicked ? "with the click" : "no click",
  ].join(", ");
}
