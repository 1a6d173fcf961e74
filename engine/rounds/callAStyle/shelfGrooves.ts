/**
 * Question: which grooves of the studio's Shelf are listened for besides the styles?
 */
import { type KnownGroove, type Stock, writtenGroove } from "../../listening/index.ts";
import type { Groove } from "../../score/index.ts";
import { STOCK } from "./takeListener.ts";

/** Grooves as listening knows them; making one costs a millisecond, and the same ones come back with every take. */
const made = new WeakMap<Groove, KnownGroove>();

/**
 * The catalogue with grooves of the Shelf. One that is written stroke for stroke as another that is known is not listened
 * for a second time, because neither would be sure; the one that is called always is.
 *
 * @param calledId the groove or style that is called; `null` for a free choice.
 */
export function withShelf(shelf: readonly Groove[], calledId: string | null = null): Stock {
  const known = new Set(
    STOCK.grooves.flatMap(({ models }) =>
      models.flatMap(({ written }) => (written ? [strokesOf(written)] : [])),
    ),
  );
  const others = shelf.filter((groove) => {
    const strokes = strokesOf(groove);
    const isNew = !known.has(strokes) && groove.notes.length > 0;
    known.add(strokes);
    return isNew || groove.id === calledId;
  });
  return { ...STOCK, grooves: [...STOCK.grooves, ...others.map(knownGroove)] };
}

function knownGroove(groove: Groove): KnownGroove {
  const known = made.get(groove) ?? writtenGroove(groove, STOCK.general);
  made.set(groove, known);
  return known;
}

function strokesOf({ metre, bars, notes }: Groove): string {
  const strokes = notes.map(
    ({ voice, position, dynamic }) => `${voice} ${position.num}/${position.den} ${dynamic}`,
  );
  return [`${metre.numerator}/${metre.denominator} ${bars}`, ...strokes.sort()].join(" ");
}
