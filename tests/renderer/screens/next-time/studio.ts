/** A studio's database without a browser, with students and results to make lists from. */
import { Dexie } from "dexie";
import { IDBFactory, IDBKeyRange } from "fake-indexeddb";
import type { StoredResult, Student } from "../../../../engine/records/index.ts";
import type { ItemId, Outcome } from "../../../../engine/session/index.ts";
import type { Making } from "../../../../renderer/screens/next-time/nextTimeDesk.ts";
import { StudioDatabase } from "../../../../renderer/store/index.ts";

export const BRAM: Student = {
  version: 1,
  id: "bram",
  nickname: "Bram",
  level: "second-year",
  hand: "right",
  notes: "",
  // Mondays.
  lessonDay: { weekday: 1, from: "16:00", minutes: 30 },
  archived: false,
  addedAt: "2026-01-01T10:00:00.000Z",
};
export const NOOR: Student = { ...BRAM, id: "noor", nickname: "Noor", level: "steady" };

export function row(
  item: ItemId,
  outcome: Outcome,
  day: string,
  place: number,
  studentId = "bram",
): StoredResult {
  return {
    version: 1,
    lessonId: `${day}~a1`,
    seq: 9,
    place,
    day,
    item,
    outcome,
    studentId,
    at: `${day}T16:${String(10 + place)}:00.000Z`,
    evidence: { words: `${item} ${outcome}.`, roundId: "round-1" },
  };
}

/** Bram's lessons: flam tap slipped last, bossa nova fading, a dotted quarter rest new; samba held well. */
export const BRAMS: readonly StoredResult[] = [
  row("style:samba", "known", "2026-01-05", 0),
  row("style:samba", "known", "2026-01-19", 0),
  row("style:samba", "known", "2026-03-02", 3),
  row("style:bossa-nova", "known", "2026-01-05", 1),
  row("style:bossa-nova", "known", "2026-01-19", 1),
  row("sticking:flam-tap", "known", "2026-02-23", 0),
  row("sticking:flam-tap", "slipped", "2026-03-02", 0),
  row("symbol:dotted-quarter-rest", "new", "2026-03-02", 1),
];

/** Each database of a test in a world of its own. */
export function emptyStudio(): StudioDatabase {
  const indexedDB = new IDBFactory();
  // Live queries ask nothing where the platform has no database of its own.
  Dexie.dependencies.indexedDB = indexedDB;
  return new StudioDatabase("studio", { indexedDB, IDBKeyRange });
}

export async function studioOf(
  students: readonly Student[],
  results: readonly StoredResult[],
): Promise<StudioDatabase> {
  const database = emptyStudio();
  await database.students.bulkAdd([...students]);
  await database.results.bulkAdd([...results]);
  return database;
}

/** From half past four of Monday, 2 March 2026 on, a second later with each look at the clock. */
export function making(): Making {
  let ids = 0;
  let looks = 0;
  return {
    id: () => {
      ids += 1;
      return `made-${ids}`;
    },
    now: () => {
      looks += 1;
      return `2026-03-02T16:30:${String(looks % 60).padStart(2, "0")}.000Z`;
    },
    zone: () => "Europe/Vienna",
  };
}
