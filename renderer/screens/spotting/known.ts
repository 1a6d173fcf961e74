/** What can be played to be named, and what a student has met of it: from the Shelf and the results that are kept. */
import { type ListenedFor, listenedFor } from "../../../engine/catalogue/index.ts";
import { byItem, type Day, nameStanding } from "../../../engine/memory/index.ts";
import {
  nameItem,
  type PlayerId,
  playItem,
  type Spottable,
  STOCK_TO_SPOT,
  spottableOnShelf,
  thingKey,
} from "../../../engine/rounds/index.ts";
import { localDay } from "../../../engine/session/index.ts";
import { resultsOfStudent, type Shelf, type StudioDatabase } from "../../store/index.ts";
import type { Standing } from "./spottingPlace.ts";

/** Of nobody in particular what most play every day is thought to be met. Our choice. */
const OF_NOBODY = 0.5;

/** The same value as long as the Shelf is the same. */
function whileSame<Value>(shelf: Shelf, make: () => Value): () => Value {
  let latest: { readonly changes: number; readonly value: Value } | undefined;
  return () => {
    const { changes } = shelf.get();
    if (latest?.changes !== changes) latest = { changes, value: make() };
    return latest.value;
  };
}

/** The stock, and what is on the Shelf now. */
export function spottablesOnShelf(shelf: Shelf): () => readonly Spottable[] {
  return whileSame(shelf, () => [...STOCK_TO_SPOT, ...spottableOnShelf(shelf.index.all())]);
}

/** What of the Shelf is listened for. */
export function listenedForOnShelf(shelf: Shelf): () => ListenedFor {
  return whileSame(shelf, () => listenedFor(shelf.index.all()));
}

/** What a student has met, by all that is kept of earlier lessons. */
export function standingIn(
  database: StudioDatabase,
  today: () => Day = todayHere,
): (student: PlayerId | null) => Promise<Standing> {
  return async (student) => {
    if (student === null) {
      const everyday = new Set(
        STOCK_TO_SPOT.filter(({ isEveryday }) => isEveryday).map(({ thing }) => thingKey(thing)),
      );
      return (thing) => (everyday.has(thingKey(thing)) ? OF_NOBODY : null);
    }
    const results = byItem(await resultsOfStudent(database, student));
    const on = today();
    return (thing) => nameStanding(results, { name: nameItem(thing), played: playItem(thing) }, on);
  };
}

function todayHere(): Day {
  return localDay(new Date().toISOString(), Intl.DateTimeFormat().resolvedOptions().timeZone);
}
