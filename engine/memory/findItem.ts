/**
 * Question: which items may be meant by what is typed?
 */
import { bareName, FILLS, RHYTHMS, RUDIMENTS, SIGNS, STYLES } from "../catalogue/index.ts";
import { type ItemId, itemName, type OwnNames, type SKILLS, skillItem } from "./item.ts";

/** More than this is not read through. Our choice. */
const MOST_FOUND = 6;

const STOCK: readonly ItemId[] = [
  ...STYLES.map(({ id }): ItemId => `style:${id}`),
  ...FILLS.map(({ id }): ItemId => `fill:${id}`),
  ...RUDIMENTS.flatMap(({ id }): readonly ItemId[] => [`rudiment:${id}`, `sticking:${id}`]),
  ...[...SIGNS, ...RHYTHMS].map(({ id }): ItemId => `symbol:${id}`),
  ...(["time", "tempo", "voices", "touch", "form"] as const satisfies readonly (keyof typeof SKILLS)[]).map(
    skillItem,
  ),
];

/**
 * Items whose names hold what is typed, accents and case aside; those whose names begin with it come first. Nothing
 * while nothing is typed.
 *
 * @param met items of this student beside those of the stock.
 * @example
 * findItems("nova", [])[0] // => "style:bossa-nova"
 */
export function findItems(typed: string, met: readonly ItemId[], ownNames?: OwnNames): readonly ItemId[] {
  const sought = bareName(typed);
  if (sought === "") return [];
  const named = [...new Set([...met, ...STOCK])].map((item) => ({
    item,
    name: bareName(itemName(item, ownNames).name),
  }));
  const found = named.filter(({ name }) => name.includes(sought));
  const begin = found.filter(({ name }) => name.startsWith(sought));
  return [...begin, ...found.filter((each) => !begin.includes(each))]
    .slice(0, MOST_FOUND)
    .map(({ item }) => item);
}
