/** The heading of a report, and the line under it. */
import { STYLES } from "../../../../engine/catalogue/index.ts";
import { numberWord } from "../../../../engine/grading/index.ts";
import { certaintyWords, type Heard, type Hearing, inSentence } from "../../../../engine/listening/index.ts";
import { beatsPerBar, type Groove } from "../../../../engine/score/index.ts";
import { formatBars, formatTempo } from "../../../charts/index.ts";

/** From here on a name is said without "I think": "nearly sure" and more. Our choice, one in ten may be wrong. */
const SAID_PLAINLY_FROM = 0.9;

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

/**
 * Whether surely another style was played than the one that was called. Then the take is not measured by what it
 * never meant to be: a bossa nova is no half-time shuffle with 47 strokes left out.
 */
export function isAnother(hearing: Hearing, calledName: string | undefined): hearing is Heard {
  if (calledName === undefined || hearing.kind === "nothing" || !hearing.known) return false;
  const [best] = hearing.candidates;
  return best !== undefined && !sameName(best.name, calledName) && best.confidence >= SAID_PLAINLY_FROM;
}

/** What the called style asks for, where another was played: "Swing asks for this: the ride's …". */
export function asksForWords(calledName: string): string {
  const itself = STYLES.find(({ name }) => name === calledName)?.itself;
  return itself === undefined
    ? `${calledName} is still to come.`
    : `${calledName} asks for this: ${inSentence(itself)}`;
}

/** What was called, if the bars that were heard can be laid over it: one bar, with as many beats. */
export function calledUnder(groove: Groove | undefined, { pulse }: Heard): Groove | undefined {
  const fits = groove?.bars === 1 && beatsPerBar(groove.metre) === beatsPerBar(pulse.metre);
  return fits ? groove : undefined;
}

/** "I am nearly sure · 104 a minute · twelve bars · no click" */
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
  return [
    `I am ${certaintyWords(hearing.known && best ? best.confidence : hearing.noneConfidence)}`,
    ...(hearing.known || how.calledName === undefined ? [] : [`${inSentence(how.calledName)} was called`]),
    formatTempo(hearing.pulse.tempoBpm),
    formatBars(hearing.span.bars),
    how.click ? "with the click" : "no click",
  ].join(" · ");
}

/** A chance below this is as good as none. */
const HARDLY_BELOW = 0.01;
/** "One in seven" is said, "one in 43" is not. */
const ROUND_ODDS = [2, 3, 4, 5, 6, 8, 10, 20, 50, 100] as const;

/**
 * The chance of a groove that was not the first choice.
 *
 * @example
 * chanceWords(0.11) // => "about one in ten"
 */
export function chanceWords(chance: number): string {
  if (chance < HARDLY_BELOW) return "hardly";
  const nearness = (odds: number): number => Math.abs(Math.log(odds * chance));
  const nearest = ROUND_ODDS.reduce((best, odds) => (nearness(odds) < nearness(best) ? odds : best));
  return `about one in ${numberWord(nearest)}`;
}

function sameName(a: string, b: string): boolean {
  return a.toLowerCase() === b.toLowerCase();
}
