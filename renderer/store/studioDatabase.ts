/**
 * The studio's database in this browser or desktop: its tables, their indexes, their versions.
 *
 * Indexes are shaped by what is asked: ids of lessons sort by time, so that a student's lessons come in order from one
 * index; takes and results stand under their student by time, and under their groove or item by time.
 */
import { Dexie, type DexieOptions, type Table } from "dexie";
import { bareName, type ShelfEntry } from "../../engine/catalogue/index.ts";
import type { ListChange } from "../../engine/memory/index.ts";
import type {
  Group,
  HitChunk,
  LessonRecord,
  StoredEvent,
  StoredResult,
  StoredTake,
  Student,
} from "../../engine/records/index.ts";

/** An entry as a row: with its names as they are compared, so that a second one of the same name is found at once. */
export type EntryRow = ShelfEntry & { readonly bareNames: readonly string[] };

/** A row that could not be read, kept as it was. */
export interface RowSetAside {
  readonly number?: number;
  readonly table: string;
  readonly row: unknown;
  /** What is wrong with it. */
  readonly why: string;
}

/** Something this computer remembers of the program itself: no record, and in no archive. */
export interface SettingRow {
  readonly name: string;
  readonly value: unknown;
}

export class StudioDatabase extends Dexie {
  readonly entries: Table<EntryRow, string>;
  readonly setAside: Table<RowSetAside, number>;
  readonly students: Table<Student, string>;
  readonly groups: Table<Group, string>;
  readonly lessons: Table<LessonRecord, string>;
  readonly events: Table<StoredEvent, [lessonId: string, seq: number]>;
  readonly hits: Table<HitChunk, [lessonId: string, fromSeq: number]>;
  readonly takes: Table<StoredTake, string>;
  readonly results: Table<StoredResult, [lessonId: string, seq: number, place: number]>;
  readonly listChanges: Table<ListChange, string>;
  readonly settings: Table<SettingRow, string>;
  /** What it is kept by: the browser's own storage, unless a test brings another; `undefined` where there is none. */
  readonly factory: IDBFactory | undefined;

  constructor(name = "throneside", options: DexieOptions & { readonly indexedDB?: IDBFactory } = {}) {
    super(name, options);
    this.factory = options.indexedDB ?? Dexie.dependencies.indexedDB;
    this.version(1).stores({
      entries: "id, *bareNames",
      setAside: "++number, table",
    });
    this.version(2).stores({
      students: "id",
      groups: "id, *studentIds",
      lessons: "id, day, *studentIds",
      events: "[lessonId+seq]",
      hits: "[lessonId+fromSeq]",
      takes: "takeId, lessonId, [studentId+at], [studentId+groove.id+at]",
      results: "[lessonId+seq+place], [studentId+at], [studentId+item+at]",
      listChanges: "id, [studentId+at]",
      settings: "name",
    });
    this.entries = this.table("entries");
    this.setAside = this.table("setAside");
    this.students = this.table("students");
    this.groups = this.table("groups");
    this.lessons = this.table("lessons");
    this.events = this.table("events");
    this.hits = this.table("hits");
    this.takes = this.table("takes");
    this.results = this.table("results");
    this.listChanges = this.table("listChanges");
    this.settings = this.table("settings");
  }
}

export function rowOf(entry: ShelfEntry): EntryRow {
  return { ...entry, bareNames: [entry.name, ...entry.alsoNamed].map(bareName) };
}
