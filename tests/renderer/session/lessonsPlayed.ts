/** Lessons for tests: a book with a database of its own, a kit somebody sits down at, takes that are played. */
import { Dexie } from "dexie";
import { IDBFactory, IDBKeyRange } from "fake-indexeddb";
import type { Hit } from "../../../engine/kit/index.ts";
import {
  judgeTake,
  NEW_ROUND,
  type RoundEvent,
  roundAfter,
  type Sitting,
} from "../../../engine/rounds/index.ts";
import { KitLog } from "../../../renderer/session/kitLog.ts";
import { LessonBook } from "../../../renderer/session/lessonBook.ts";
import { Store } from "../../../renderer/session/store.ts";
import { StudioDatabase } from "../../../renderer/store/index.ts";
import { type TestClock, testPlace } from "./lessonPlace.ts";

/** An empty studio in a place of its own; or one more window on the studio of that place. */
export function database(indexedDB: IDBFactory = new IDBFactory()): StudioDatabase {
  // Live queries ask nothing where the platform has no database of its own.
  Dexie.dependencies.indexedDB = indexedDB;
  return new StudioDatabase("studio", { indexedDB, IDBKeyRange });
}

export function hit(time: number, velocity = 100 / 127): Hit {
  return { time, voice: "snare", zone: "head", velocity, pad: 38 };
}

/** Four bars of backbeats and eighths at a hundred a minute, from a moment of the session clock on. */
export function rock(from: number): readonly Hit[] {
  return Array.from({ length: 32 }, (_, eighth): readonly Hit[] => {
    const time = from + eighth * 0.3;
    const hat: Hit = { time, voice: "hi-hat-closed", zone: "bow", velocity: 80 / 127, pad: 42 };
    if (eighth % 4 === 2) return [hat, { ...hit(time), pad: 38 }];
    return eighth % 4 === 0 ? [hat, { ...hit(time), voice: "kick", pad: 36 }] : [hat];
  }).flat();
}

export async function opened(place = testPlace(), data = database()) {
  const book = new LessonBook(data, place);
  const found = await book.open();
  return { book, data, place, found };
}

/** A kit and its round, recorded in the book. */
export function sitDown(book: LessonBook, lane = 0) {
  const kit = new KitLog();
  const round = new Store<Sitting, RoundEvent>(NEW_ROUND, roundAfter);
  book.record(kit, round, lane);
  /** Plays the called style from now on, for ten seconds; the take goes on. */
  const strike = (styleId: string, clock: TestClock): readonly Hit[] => {
    round.dispatch({ kind: "called", styleId });
    round.dispatch({ kind: "started", click: null });
    const hits = rock(clock.seconds);
    clock.pass(10);
    kit.append(hits.map((each) => ({ source: "kit", live: true, event: { kind: "hit", hit: each } })));
    return hits;
  };
  /** The same, ended and judged. */
  const playTake = (styleId: string, clock: TestClock): void => {
    const hits = strike(styleId, clock);
    round.dispatch({ kind: "stopped", hits });
    round.dispatch({ kind: "judged", judgement: judgeTake({ hits, styleId, click: null }) });
    round.dispatch({ kind: "another-style" });
  };
  return { kit, round, strike, playTake };
}
