/**
 * The forms in which two players trade: who plays how many bars, after whom.
 */

/** One of the two who trade. */
export type Side = 0 | 1;

export const FORMS = ["twos", "fours", "eights", "shrinking", "twelve", "thirty-two", "free"] as const;
export type Form = (typeof FORMS)[number];

/** The form as players call it. */
export const FORM_NAMES: Readonly<Record<Form, string>> = {
  twos: "Twos",
  fours: "Fours",
  eights: "Eights",
  shrinking: "Shrinking: eight, four, two, one",
  twelve: "Fours over twelve bars",
  "thirty-two": "Eights over thirty-two bars",
  free: "Free",
};

/**
 * What is played in a turn: a call, its answer, or the groove that both keep in between. *way*: what was played is on its way to
 * another place, and the answer on its way back.
 */
export const TURN_PARTS = ["call", "answer", "groove", "way"] as const;
export type TurnPart = (typeof TURN_PARTS)[number];

export interface Turn {
  readonly part: TurnPart;
  /** Whose it is; in a groove between it is both players', and of the one who calls next; on the way, of the one who plays next. */
  readonly side: Side;
  /** Which exchange it belongs to, from 0. */
  readonly exchange: number;
  /** Bars from the beginning. */
  readonly fromBar: number;
  /** `null`: until it is passed on. */
  readonly bars: number | null;
}

/**
 * Bars of a turn, exchange by exchange; both players' turns are equally long. Whole forms end on a whole form: twos, fours and
 * eights fill thirty-two bars at most, the blues form two choruses, so that the roles change at its middle (common practice, no
 * source).
 */
const EXCHANGES: Readonly<Record<Exclude<Form, "free">, readonly number[]>> = {
  twos: [2, 2, 2, 2],
  fours: [4, 4, 4, 4],
  eights: [8, 8],
  shrinking: [8, 4, 2, 1],
  twelve: [4, 4, 4],
  "thirty-two": [8, 8],
};

/**
 * Where two play in two places, what is struck here is heard there later, and what is struck there here: from the end of a phrase
 * to the beginning of the other's it is so many bars, at the place from which the phrase goes out.
 */
export interface Way {
  readonly bars: number;
  /** What goes out from this place. */
  readonly after: "call" | "answer";
}

/** A free form goes on until it is stopped; so many turns are laid out at once. Our choice. */
const FREE_EXCHANGES = 64;

/**
 * The turns of a form.
 *
 * @param how `groove`: both keep the groove between two exchanges, as long as a turn. `calls`: who calls. `way`: for two places.
 * @example
 * turnsOf("shrinking", { groove: false, calls: 0 }).map(({ bars }) => bars) // => [8, 8, 4, 4, 2, 2, 1, 1]
 */
export function turnsOf(
  form: Form,
  { groove, calls, way = NO_WAY }: { readonly groove: boolean; readonly calls: Side; readonly way?: Way },
): readonly Turn[] {
  const answers: Side = calls === 0 ? 1 : 0;
  if (form === "free") {
    return Array.from({ length: FREE_EXCHANGES }, (_, exchange): readonly Turn[] => [
      { part: "call", side: calls, exchange, fromBar: 0, bars: null },
      { part: "answer", side: answers, exchange, fromBar: 0, bars: null },
    ]).flat();
  }
  const turns: Turn[] = [];
  let fromBar = 0;
  const add = (part: TurnPart, side: Side, exchange: number, bars: number): void => {
    turns.push({ part, side, exchange, fromBar, bars });
    fromBar += bars;
  };
  EXCHANGES[form].forEach((bars, exchange) => {
    if (groove && exchange > 0) add("groove", calls, exchange, bars);
    if (way.after === "answer" && way.bars > 0 && exchange > 0) add("way", calls, exchange, way.bars);
    add("call", calls, exchange, bars);
    if (way.after === "call" && way.bars > 0) add("way", answers, exchange, way.bars);
    add("answer", answers, exchange, bars);
  });
  return turns;
}

const NO_WAY: Way = { bars: 0, after: "call" };

/** Whether somebody has a phrase to play in it. */
export function isPhrase({ part }: Turn): boolean {
  return part === "call" || part === "answer";
}

/** Bars of the whole form; `null` for a free one. */
export function barsOf(turns: readonly Turn[]): number | null {
  const last = turns.at(-1);
  return last && last.bars !== null ? last.fromBar + last.bars : null;
}
