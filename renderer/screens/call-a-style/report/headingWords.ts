/** The heading of a report, and the line under it. */
import { certaintyWords, type Hearing } from "../../../../engine/listening/index.ts";
import { formatBars, formatTempo } from "../../../charts/index.ts";
import { inSentence } from "./evidenceWords.ts";

/** From here on a name is said without "I think". Our choice: one in twenty may be wrong. */
const SAID_PLAINLY_FROM = 0.95;

/**
 * @param calledName what was asked for; undefined when the choice was free.
 * @example
 * headingWords(hearing, "Shuffle") // => "Shuffle, as called"
 */
export function headingWords(hearing: Hearing, calledName: string | undefined): string {
  if (hearing.kind === "nothing")
    return hearing.reason === "no-hits" ? "Nothing heard" : "Too little to tell";
  const best = hearing.candidates[0];
  if (!hearing.known || best === undefined) return "None I know";
  if (calledName === undefined)
    return best.confidence >= SAID_PLAINLY_FROM ? best.name : `${best.name}, I think`;
  return sameName(best.name, calledName)
    ? `${best.name}, as called`
    : `${best.name}, where ${inSentence(calledName)} was called`;
}

/** "Heard with near certainty · 104 a minute · twelve bars · no click" */
export function sublineWords(
  hearing: Hearing,
  how: { readonly click: boolean; readonly calledName: string | undefined },
): string {
  if (hearing.kind === "nothing") {
    return hearing.reason === "no-hits"
      ? "No strike reached me."
      : "Play two bars or more, and I will say what I hear.";
  }
  const best = hearing.candidates[0];
  const parts = [
    hearing.known && best ? `Heard: ${certaintyWords(best.confidence)}` : called(how.calledName),
    formatTempo(hearing.pulse.tempoBpm),
    formatBars(hearing.span.bars),
    how.click ? "with the click" : "no click",
  ];
  return parts.filter((part) => part !== "").join(" · ");
}

function called(name: string | undefined): string {
  return name === undefined ? "" : `${name} was called`;
}

function sameName(a: string, b: string): boolean {
  return a.toLowerCase() === b.toLowerCase();
}
