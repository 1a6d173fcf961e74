/**
 * Question: which three wrong names belong beside the right one?
 *
 * Method: those that it could be taken for. Signs stand in their family in an order in which neighbours are alike, so the
 * nearest neighbours are drawn from; a note and its rest are taken for each other, a value and its dotted one as well.
 */
import { type Naming, RUDIMENTS, SIGNS, type Sign } from "../../catalogue/index.ts";
import type { Chance } from "../../units/index.ts";
import { type CardId, cardName, faceOf } from "./card.ts";

export const CHOICES = 4;
/** So many of the nearest are drawn from. Our choice: enough that the same card does not bring the same three. */
const NEAREST = 5;

/** The right card and three others in an order by chance; none where the card has no name. */
export function choicesFor(card: CardId, naming: Naming, chance: Chance): readonly CardId[] {
  const right = cardName(card, naming);
  const pool: CardId[] = [];
  for (const other of likest(card)) {
    const isNamedSo = [card, ...pool].some((each) => cardName(each, naming) === cardName(other, naming));
    if (!isNamedSo && cardName(other, naming) !== right) pool.push(other);
    if (pool.length === NEAREST) break;
  }
  if (pool.length < CHOICES - 1) return [];
  return shuffled([card, ...shuffled(pool, chance).slice(0, CHOICES - 1)], chance);
}

/** Other cards, the likest first. */
function likest(card: CardId): readonly CardId[] {
  const face = faceOf(card);
  if (face?.kind === "sign") {
    return byDistance(SIGNS, face.sign, signDistance).map(({ id }): CardId => `symbol:${id}`);
  }
  if (face?.kind === "sticking") {
    return byDistance(
      RUDIMENTS,
      face.rudiment,
      (a, b) => Math.abs(a.number - b.number) + (a.family === b.family ? 0 : OTHER_FAMILY),
    ).map(({ id }): CardId => `sticking:${id}`);
  }
  return [];
}

/** Further than any two of one family. */
const OTHER_FAMILY = 100;

function byDistance<Thing>(
  all: readonly Thing[],
  from: Thing,
  distance: (a: Thing, b: Thing) => number,
): readonly Thing[] {
  return all
    .filter((each) => each !== from)
    .map((each) => ({ each, far: distance(from, each) }))
    .sort((a, b) => a.far - b.far)
    .map(({ each }) => each);
}

const PLACES: ReadonlyMap<Sign, number> = new Map(SIGNS.map((sign, at) => [sign, at]));

function signDistance(a: Sign, b: Sign): number {
  if (a.drawn.kind !== b.drawn.kind && isValue(a) && isValue(b)) {
    const isCounterpart =
      a.drawn.value.base === b.drawn.value.base && a.drawn.value.dots === b.drawn.value.dots;
    return isCounterpart ? 1 : OTHER_FAMILY;
  }
  const far = Math.abs((PLACES.get(a) ?? 0) - (PLACES.get(b) ?? 0));
  return a.family === b.family ? far : far + OTHER_FAMILY;
}

function isValue(
  sign: Sign,
): sign is Sign & { readonly drawn: Extract<Sign["drawn"], { readonly kind: "note" | "rest" }> } {
  return sign.drawn.kind === "note" || sign.drawn.kind === "rest";
}

/** In an order by chance (Durstenfeld, Communications of the ACM 7 (1964) 420). */
export function shuffled<Thing>(things: readonly Thing[], chance: Chance): readonly Thing[] {
  const all = [...things];
  for (let last = all.length - 1; last > 0; last -= 1) {
    const at = Math.floor(chance() * (last + 1));
    const [a, b] = [all[at], all[last]];
    if (a !== undefined && b !== undefined) {
      all[at] = b;
      all[last] = a;
    }
  }
  return all;
}
