/**
 * Where the Next Time page has its students and their evidence from, and where it keeps what the teacher changes.
 */
import { Dexie, liveQuery } from "dexie";
import { z } from "zod";
import {
  type ItemId,
  type ListChange,
  type OwnNames,
  type Result,
  retentionSchema,
  signNames,
  skillResults,
  USUAL_RETENTION,
} from "../../../engine/memory/index.ts";
import type { StoredTake, Student } from "../../../engine/records/index.ts";
import { namingHere } from "../../session/cardSettings.ts";
import {
  keepListChange,
  listChangesOf,
  resultsOfStudent,
  type StudioDatabase,
  studentsOf,
  takesOfStudent,
  told,
} from "../../store/index.ts";

/** All that the list of one student is made from. */
export interface StudentEvidence {
  readonly results: readonly Result[];
  readonly changes: readonly ListChange[];
  /** Names the studio gave its own grooves, as they were when they were played, and those it uses of signs. */
  readonly ownNames: OwnNames;
}

/** Each may fail with a StoreError: its message is a sentence for the teacher. */
export interface NextTimePlace {
  /** Students who still come. */
  readonly students: () => Promise<readonly Student[]>;
  readonly evidenceOf: (student: Student) => Promise<StudentEvidence>;
  readonly keep: (change: ListChange) => Promise<void>;
  /** Tells of every change to what a student's list is made from, in whatever window. Returns the way to stop. */
  readonly follow: (studentId: string, onChange: () => void) => () => void;
  /** Wanted chance to recall. */
  readonly retention: () => Promise<number>;
  readonly keepRetention: (retention: number) => Promise<void>;
}

const RETENTION = "memory.retention";
const namedEntry = z.object({ kind: z.string(), id: z.string(), name: z.string() });
const keptRetention = z.object({ value: retentionSchema });

/** The studio's own database. */
export function inStudio(database: StudioDatabase): NextTimePlace {
  return {
    students: async () => (await studentsOf(database)).filter(({ archived }) => !archived),
    evidenceOf: async (student) => {
      const [results, takes, changes, entries] = await Promise.all([
        resultsOfStudent(database, student.id),
        takesOfStudent(database, student.id),
        listChangesOf(database, student.id),
        told(() => database.entries.toArray()),
      ]);
      const ofSkills = takes.flatMap((take) => skillResults(take, { level: student.level, day: take.day }));
      return {
        results: [...results, ...ofSkills],
        changes,
        ownNames: new Map([...signNames(namingHere()), ...namesOnShelf(entries), ...namesIn(takes)]),
      };
    },
    keep: (change) => keepListChange(database, change),
    follow: (studentId, onChange) => {
      const { results, takes, listChanges, students } = database;
      const of = [[studentId, Dexie.minKey] as const, [studentId, Dexie.maxKey] as const] as const;
      // The query only wakes: reading may set broken rows aside, which a query must not.
      const following = liveQuery(() =>
        Promise.all([
          students.get(studentId),
          ...[results, takes, listChanges].map((table) =>
            table
              .where("[studentId+at]")
              .between(...of)
              .count(),
          ),
        ]),
      ).subscribe({
        // The first look tells too: something may have changed since the list was read.
        next: onChange,
        // What is wrong with the storage is told where it is read.
        error: onChange,
      });
      return () => following.unsubscribe();
    },
    retention: async () => {
      const row = await told(() => database.settings.get(RETENTION));
      const kept = keptRetention.safeParse(row);
      return kept.success ? kept.data.value : USUAL_RETENTION;
    },
    keepRetention: async (value) => {
      const kept = { name: RETENTION, value: retentionSchema.parse(value) };
      await told(() => database.settings.put(kept));
    },
  };
}

/** What is on the studio's own Shelf, played and by name. A row that cannot be read is told where it is opened. */
function namesOnShelf(entries: readonly unknown[]): OwnNames {
  return new Map(
    entries.flatMap((row): readonly (readonly [ItemId, string])[] => {
      const { data } = namedEntry.safeParse(row);
      if (!data) return [];
      const { kind, id, name } = data;
      const of = kind === "fill" ? (["fill", "fill-name"] as const) : (["style", "style-name"] as const);
      return of.map((each) => [`${each}:${id}`, name]);
    }),
  );
}

/** What was called and heard, by the names it went by; of one that was renamed, the latest. */
function namesIn(takes: readonly StoredTake[]): OwnNames {
  const names = new Map<ItemId, string>();
  // Newest first: a name that is there already is the later one.
  for (const { called, heard } of takes)
    for (const groove of [called, heard])
      if (groove && !names.has(`style:${groove.id}`)) names.set(`style:${groove.id}`, groove.name);
  return names;
}
