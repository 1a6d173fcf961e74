/**
 * The Shelf as the program holds it: the stock's entries and the studio's own, found in memory, kept in the database.
 * A change is written first, in one transaction, and seen when it is written.
 */
import { type ShelfEntry, ShelfIndex, shelfEntrySchema, stockEntries } from "../../engine/catalogue/index.ts";
import { readRow, stepsOf } from "../../engine/records/index.ts";
import { Store } from "../session/store.ts";
import { NameTakenError, StoreError, storeErrorOf } from "./storeError.ts";
import { type EntryRow, rowOf, type StudioDatabase } from "./studioDatabase.ts";

export interface ShelfState {
  /** `loading` until all that was kept is read; `unkept` where this computer keeps nothing. */
  readonly stage: "loading" | "ready" | "unkept";
  /** Why nothing is kept, or what went wrong while reading. */
  readonly trouble: string | null;
  /** Rows that could not be read and were set aside. */
  readonly setAside: number;
  /** Grows with every change: the entries themselves are asked of {@link Shelf.index}. */
  readonly changes: number;
}

/** Rows are read so many at a time, so that the page stays awake. Our choice: some 40 ms each. */
const ROWS_AT_ONCE = 1000;

export class Shelf extends Store<ShelfState, Partial<ShelfState>> {
  readonly index = new ShelfIndex(stockEntries());
  readonly #database: StudioDatabase;
  #opened: Promise<void> | undefined;

  constructor(database: StudioDatabase) {
    super({ stage: "loading", trouble: null, setAside: 0, changes: 0 }, (state, change) => ({
      ...state,
      ...change,
      changes: state.changes + 1,
    }));
    this.#database = database;
  }

  /** Reads what was kept; again, it gives the same reading. Never fails: what went wrong is in the state. */
  open(): Promise<void> {
    this.#opened ??= this.#read();
    return this.#opened;
  }

  /**
   * Keeps an entry, new or changed.
   *
   * @throws StoreError when another goes by one of its names, or it cannot be written; then nothing is changed.
   */
  async keep(entry: ShelfEntry): Promise<void> {
    await this.open();
    for (const name of [entry.name, ...entry.alsoNamed]) {
      const other = this.index.otherOfName(name, entry.id);
      if (other) throw sameName(name, other);
    }
    await this.#written(async () => {
      const row = rowOf(entry);
      const other = await this.#database.entries
        .where("bareNames")
        .anyOf(row.bareNames)
        .filter(({ id }) => id !== row.id)
        .first();
      if (other) throw sameName(entry.name, other);
      await this.#database.entries.put(row);
    });
    this.index.put(entry);
    this.dispatch({});
  }

  /**
   * Takes an entry off the Shelf. Keep it again to bring it back.
   *
   * @throws StoreError when it cannot be; then it is still there.
   */
  async putAway(entry: ShelfEntry): Promise<void> {
    await this.open();
    await this.#written(() => this.#database.entries.delete(entry.id));
    this.index.remove(entry.id);
    this.dispatch({});
  }

  /** One change, whole or not at all. */
  async #written(change: () => PromiseLike<void>): Promise<void> {
    const { trouble, stage } = this.get();
    if (stage === "unkept") throw new StoreError(trouble ?? "This computer keeps nothing.");
    try {
      await this.#database.transaction("rw", this.#database.entries, change);
    } catch (error) {
      throw storeErrorOf(error);
    }
  }

  async #read(): Promise<void> {
    try {
      const unreadable: Unreadable[] = [];
      let newer = 0;
      const keys = await this.#database.entries.toCollection().primaryKeys();
      for (let from = 0; from < keys.length; from += ROWS_AT_ONCE) {
        const some = keys.slice(from, from + ROWS_AT_ONCE);
        const rows: readonly (EntryRow | undefined)[] = await this.#database.entries.bulkGet(some);
        const readable: ShelfEntry[] = [];
        some.forEach((key, at) => {
          const reading = readRow(shelfEntrySchema, rows[at], stepsOf("entries"));
          if (reading.kind === "read") readable.push(reading.value);
          else if (reading.kind === "newer") newer += 1;
          else unreadable.push({ row: rows[at], key, why: reading.why });
        });
        this.index.addAll(readable);
        if (from + ROWS_AT_ONCE < keys.length) this.dispatch({});
      }
      await this.#setAside(unreadable);
      const setAside = await this.#database.setAside.count();
      this.dispatch({ stage: "ready", setAside, trouble: newer > 0 ? newerWords(newer) : null });
    } catch (error) {
      this.dispatch({ stage: "unkept", trouble: storeErrorOf(error).message });
    }
  }

  /** Moves rows that cannot be read out of the way, as they are. */
  async #setAside(rows: readonly Unreadable[]): Promise<void> {
    if (rows.length === 0) return;
    const { entries, setAside } = this.#database;
    await this.#database.transaction("rw", entries, setAside, async () => {
      await setAside.bulkAdd(rows.map(({ row, why }) => ({ table: "entries", row, why })));
      await entries.bulkDelete(rows.map(({ key }) => key));
    });
  }
}

interface Unreadable {
  readonly row: unknown;
  readonly key: string;
  readonly why: string;
}

function newerWords(count: number): string {
  const entries = count === 1 ? "1 entry was" : `${count} entries were`;
  return `${entries} written by a newer version of the program and cannot be shown here. Nothing was changed; open the Shelf with that version.`;
}

function sameName(name: string, other: Pick<ShelfEntry, "kind" | "name">): NameTakenError {
  const also = other.name.toLowerCase() === name.toLowerCase() ? "" : `, also called "${name}"`;
  return new NameTakenError(
    `The Shelf already has a ${other.kind} called "${other.name}"${also}. Give this one a name of its own; nothing was changed.`,
  );
}
