/** What the report's margin tells of a hearing: why this groove and not that one, and what else was heard. */
import { numberWord } from "../../../../engine/grading/index.ts";
import { type Heard, inSentence, norWords, whyWords } from "../../../../engine/listening/index.ts";
import { formatRatio } from "../../../charts/index.ts";

export interface Told {
  readonly heading: string;
  /** Whole sentences. */
  readonly sentences: readonly string[];
}

/**
 * Why the best candidate rather than its neighbours, or why none. Where another style was called, why it is not that one.
 *
 * @param calledName undefined when the choice was free.
 */
export function whyTold(hearing: Heard, calledName?: string): Told {
  const [best] = hearing.candidates;
  const heading = hearing.known && best ? `Why ${inSentence(best.name)}` : "Why none I know";
  const told = whyWords(hearing);
  const called = hearing.candidates.find(({ name }) => name === calledName);
  const isTold =
    called === undefined || called === best || told.some((said) => said.includes(inSentence(called.name)));
  return { heading, sentences: isTold ? told : [...told, ...norWords(called)] };
}

/**
 * The drum part that was played, long and short, fills and what was counted in; no sentences where there was none of it.
 *
 * @param how `swingIsGraded`: the figures tell it already, against what is written.
 */
export function alsoTold(
  { swing, fills, countIn, part }: Heard,
  how: { readonly swingIsGraded: boolean },
): Told {
  return {
    heading: "Also heard",
    sentences: [
      ...(part ? [`As in the drum part ${part.name}, which is on the Shelf.`] : []),
      ...(countIn ? [`Counted in with ${numberWord(countIn.strokes)} strokes.`] : []),
      ...(swing && !how.swingIsGraded ? [swingTold(swing)] : []),
      ...fills.slice(0, MOST_FILLS).map(fillTold),
      ...(fills.length > MOST_FILLS ? [`And ${numberWord(fills.length - MOST_FILLS)} more.`] : []),
    ],
  };
}

/** More fills are only counted. Our choice: the margin stays short. */
const MOST_FILLS = 3;
/** Nearer to 1 : 1 than this is straight. Our choice: what swing of sixteenths begins at. */
const STRAIGHT_BELOW = 1.15;
const STRAIGHT_ABOVE = 1 / STRAIGHT_BELOW;

function swingTold({ ratio, of }: NonNullable<Heard["swing"]>): string {
  const isStraight = ratio < STRAIGHT_BELOW && ratio > STRAIGHT_ABOVE;
  return isStraight ? `Straight ${of}.` : `Long to short in ${of}: ${formatRatio(ratio)}.`;
}

/** "A fill in bar 4: two beats of sixteenths down the toms." */
function fillTold({ bar, beats, name }: Heard["fills"][number]): string {
  return `A fill in bar ${bar}: ${name === undefined ? lengthWords(beats) : inSentence(name)}.`;
}

function lengthWords(beats: number): string {
  const rounded = Math.round(beats * 2) / 2;
  if (rounded === 1) return "one beat";
  return Number.isInteger(rounded) ? `${numberWord(rounded)} beats` : `${rounded} beats`;
}
