/**
 * Question: where does an item go when it is moved one place, or into the other part of the list?
 */
import type { ItemId } from "./item.ts";
import { SECTIONS, type Section } from "./listChange.ts";
import type { NextTimeList } from "./nextTime.ts";

/** Before another item of a section, or at its end where `before` is `null`. */
export interface Destination {
  readonly section: Section;
  readonly before: ItemId | null;
}

type Lists = Pick<NextTimeList, "refresh" | "new">;

/** Where it stands: its section, and which place from 0; `null` where it is not on the list. */
export function placeOnList(
  list: Lists,
  item: ItemId,
): { readonly section: Section; readonly at: number } | null {
  for (const section of SECTIONS) {
    const at = list[section].findIndex((each) => each.item === item);
    if (at >= 0) return { section, at };
  }
  return null;
}

/** One place earlier in its section; `null` where it is the first, or not on the list. */
export function upFrom(list: Lists, item: ItemId): Destination | null {
  const place = placeOnList(list, item);
  const above = place && list[place.section][place.at - 1];
  return place && above ? { section: place.section, before: above.item } : null;
}

/** One place later in its section; `null` where it is the last, or not on the list. */
export function downFrom(list: Lists, item: ItemId): Destination | null {
  const place = placeOnList(list, item);
  if (!place || place.at + 1 >= list[place.section].length) return null;
  return { section: place.section, before: list[place.section][place.at + 2]?.item ?? null };
}

/** First in the other section, where the eye is; `null` where it is not on the list. */
export function acrossFrom(list: Lists, item: ItemId): Destination | null {
  const place = placeOnList(list, item);
  if (!place) return null;
  const section = place.section === "refresh" ? "new" : "refresh";
  return { section, before: list[section][0]?.item ?? null };
}
