/** What a round of Call a Style says, on the page and on the wall. */
import { styleById } from "../../../engine/catalogue/index.ts";
import type { Click } from "../../../engine/listening/index.ts";
import { certaintyWords, type Hearing } from "../../../engine/listening/index.ts";
import type { Asked } from "../../../engine/rounds/index.ts";
import { metreName } from "../../../engine/score/index.ts";
import { formatBars, formatTempo } from "../../charts/figures.ts";

/** Name of the style, or the groove of the Shelf, that was called; `undefined` for a free choice. */
export function calledName({
  styleId,
  shelfGroove,
}: Pick<Asked, "styleId" | "shelfGroove">): string | undefined {
  return shelfGroove?.name ?? (styleId === null ? undefined : styleById(styleId)?.name);
}

export function askedTitle(asked: Asked): string {
  return calledName(asked) ?? "Free choice";
}

/** What is heard while playing: what it is and how sure, then the figures. Two lines, never a judgement. */
export function hearingLines(
  { hearing, click }: { readonly hearing: Hearing | null; readonly click: Click | null },
  hitCount: number,
): { readonly say: string; readonly figures: string } {
  if (hitCount === 0)
    return {
      say: click ? "Come in on one." : "Play when you are ready.",
      figures: "Waiting for the first strike.",
    };
  if (hearing?.kind !== "heard")
    return { say: "I hear you. Two bars, and I will say what it is.", figures: "" };
  const { pulse, span, known, candidates } = hearing;
  const best = candidates[0];
  const say =
    known && best ? `${best.name}. I am ${certaintyWords(best.confidence)}.` : "None I know, so far.";
  return {
    say,
    figures: `${formatTempo(pulse.tempoBpm)} · ${metreName(pulse.metre)} · ${formatBars(span.bars)}`,
  };
}
