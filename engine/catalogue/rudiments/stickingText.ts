/**
 * The compact text in which the stock's rudiments are written, and how a sticking is printed.
 *
 * A value and a colon say how long the strokes after it last: `4:` quarters, `8:` eighths, `16:`, `32:`; a dot makes it half
 * as long again (`8.:`), a `t` three in the time of two (`8t:`). A stroke is a hand, `R` or `L`, with its grace strokes
 * before it in small letters (`lR`, `rrL`), `>` after it for an accent and `~` for a hand movement that bounces several
 * times. `/` parts the two leads.
 */
import { beatsPerQuarter, type Hand, type Metre } from "../../score/index.ts";
import { add, type Fraction, fraction, multiply, ZERO } from "../../units/index.ts";
import type { Rudiment, RudimentStroke } from "./rudiment.ts";

/** Thrown when a sticking's text cannot be read; the message says where and what is expected. */
export class StickingTextError extends Error {
  override readonly name = "StickingTextError";
}

const VALUE = /^(4|8|16|32)(\.|t)?:$/;
const STROKE = /^(l{0,2}R|r{0,2}L)(>?)(~?)$/;

/**
 * Reads a sticking.
 *
 * @throws StickingTextError for a word that is neither a value, a stroke nor `/`, a stroke before any value, or no stroke.
 * @example
 * readSticking("16: R> L R R", FOUR_FOUR).strokes.length // => 4
 */
export function readSticking(text: string, metre: Metre): Pick<Rudiment, "strokes" | "leads" | "beats"> {
  const strokes: RudimentStroke[] = [];
  const leads = [0];
  let position: Fraction = ZERO;
  let length: Fraction | undefined;
  for (const word of text.trim().split(/\s+/)) {
    const value = VALUE.exec(word);
    if (value) {
      length = valueInBeats(Number(value[1]), value[2], metre);
    } else if (word === "/") {
      leads.push(strokes.length);
    } else {
      if (length === undefined)
        throw new StickingTextError(`"${word}" stands before any value; begin with one, as in "16: R".`);
      strokes.push({ ...readStroke(word), position, length });
      position = add(position, length);
    }
  }
  if (strokes.length === 0) throw new StickingTextError("The sticking holds no stroke.");
  return { strokes, leads, beats: position };
}

function readStroke(word: string): Pick<RudimentStroke, "hand" | "graces" | "accent" | "bounced"> {
  const [, hands, accent, bounce] = STROKE.exec(word) ?? [];
  const graces = (hands?.length ?? 0) - 1;
  if (hands === undefined || (graces !== 0 && graces !== 1 && graces !== 2))
    throw new StickingTextError(
      `"${word}" is no stroke; write R or L, the other hand small before it for grace strokes, > or ~ after it.`,
    );
  return { hand: hands.endsWith("R") ? "R" : "L", graces, accent: accent === ">", bounced: bounce === "~" };
}

function valueInBeats(base: number, sign: string | undefined, metre: Metre): Fraction {
  const quarters = fraction(4, base);
  const factor = sign === "." ? fraction(3, 2) : sign === "t" ? fraction(2, 3) : fraction(1);
  return multiply(multiply(quarters, factor), beatsPerQuarter(metre));
}

export function otherHand(hand: Hand): Hand {
  return hand === "R" ? "L" : "R";
}

/** A stroke as the sheet prints it: `R`, `lR`, `rrL`. */
export function strokeText({ hand, graces }: Pick<RudimentStroke, "hand" | "graces">): string {
  return otherHand(hand).toLowerCase().repeat(graces) + hand;
}

/**
 * The hands of one cycle, graces in small letters, the two leads parted.
 *
 * @example
 * stickingOf(rudimentById("five-stroke-roll")) // => "R R L L R / L L R R L"
 */
export function stickingOf({ strokes, leads }: Pick<Rudiment, "strokes" | "leads">): string {
  return strokes
    .flatMap((stroke, at) =>
      at > 0 && leads.includes(at) ? ["/", strokeText(stroke)] : [strokeText(stroke)],
    )
    .join(" ");
}
