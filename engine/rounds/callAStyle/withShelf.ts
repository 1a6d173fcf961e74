/**
 * Question: what of the studio's Shelf is listened for besides the styles and fills of the catalogue?
 */
import { FILLS, type ListenedFor } from "../../catalogue/index.ts";
import {
  KNOWN_FILLS,
  type KnownGroove,
  type KnownParts,
  knownFill,
  knownParts,
  type Stock,
  writtenGroove,
} from "../../listening/index.ts";
import type { Fill, Groove } from "../../score/index.ts";
import { STOCK } from "./takeListener.ts";

/** Grooves as listening knows them; making one costs a millisecond, and the same ones come back with every take. */
const made = new WeakMap<Groove, KnownGroove>();
/** Likewise the drum parts, with all that is listened for beside them. */
const partsMade = new WeakMap<ListenedFor, KnownParts>();

/**
 * The catalogue with what is the studio's own. A groove or a fill that is written stroke for stroke as another that is known is not
 * listened for a second time, because neither would be sure; the groove that is called always is.
 *
 * @param shelf the same object while it is the same.
 * @param calledId the groove or style that is called; `null` for a free choice.
 */
export function withShelf(shelf: ListenedFor, calledId: string | null = null): Stock {
  const catalogued = STOCK.grooves.flatMap(({ models }) =>
    models.flatMap(({ written }) => (written ? [strokesOf(written)] : [])),
  );
  const others = newOnes(shelf.grooves, catalogued, strokesOf, calledId);
  const grooves = [...STOCK.grooves, ...others.map(knownGroove)];
  const fills = newOnes(shelf.fills, FILLS.map(strokesOfFill), strokesOfFill);
  return {
    ...STOCK,
    grooves,
    fills: [...KNOWN_FILLS, ...fills.map(knownFill)],
    ...(shelf.parts.length > 0 ? { parts: partsOf(shelf, grooves, [...FILLS, ...fills]) } : {}),
  };
}

/** Those that are not silent, and not written as one that is known or came before. */
function newOnes<Music extends Pick<Groove, "id" | "notes">>(
  own: readonly Music[],
  catalogued: readonly string[],
  textOf: (music: Music) => string,
  calledId: string | null = null,
): readonly Music[] {
  const known = new Set(catalogued);
  return own.filter((music) => {
    const text = textOf(music);
    const isNew = !known.has(text) && music.notes.length > 0;
    known.add(text);
    return isNew || music.id === calledId;
  });
}

function knownGroove(groove: Groove): KnownGroove {
  const known = made.get(groove) ?? writtenGroove(groove, STOCK.general);
  made.set(groove, known);
  return known;
}

function partsOf(shelf: ListenedFor, grooves: readonly KnownGroove[], fills: readonly Fill[]): KnownParts {
  const known = partsMade.get(shelf) ?? knownParts(shelf.parts, grooves, fills);
  partsMade.set(shelf, known);
  return known;
}

function strokesOf({ metre, bars, notes }: Pick<Groove, "metre" | "bars" | "notes">): string {
  const strokes = notes.map(
    ({ voice, position, dynamic }) => `${voice} ${position.num}/${position.den} ${dynamic}`,
  );
  return [`${metre.numerator}/${metre.denominator} ${bars}`, ...strokes.sort()].join(" ");
}

function strokesOfFill({ metre, beats, notes }: Fill): string {
  return strokesOf({ metre, bars: beats, notes });
}
