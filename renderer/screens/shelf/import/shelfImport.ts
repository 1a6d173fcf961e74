/**
 * Many MIDI files onto the Shelf: each is read beside the page and kept by itself, so that whenever it ends, by itself,
 * by the user or by a full disk, every entry there is whole.
 */
import {
  EntryError,
  LONGEST_NAME,
  type ShelfEntry,
  shelfEntry,
  type Written,
} from "../../../../engine/catalogue/index.ts";
import type { Groove } from "../../../../engine/score/index.ts";
import { Store } from "../../../session/store.ts";
import { NameTakenError, type Shelf, StoreError } from "../../../store/index.ts";
import type { Making } from "../shelfDesk.ts";
import type { Chosen, ChosenFile } from "./chosenFiles.ts";

/**
 * What a file gave: the groove that comes round in it, or the phrase it is where it is too short for that, and the bar at
 * which it stands; or why there is none.
 */
export type FileRead =
  | {
      readonly kind: "found";
      readonly as: "groove" | "phrase";
      readonly music: Groove;
      readonly bar: number;
    }
  | { readonly kind: "failed"; readonly reason: string };

/** Reads files beside the page. */
export interface FileReader {
  /** Files that are read at one time. */
  readonly atOnce: number;
  readonly read: (path: string, bytes: ArrayBuffer) => Promise<FileRead>;
  /** Gives up whatever is being read. */
  readonly stop: () => void;
}

export interface ImportFailure {
  readonly path: string;
  readonly reason: string;
}

export interface ImportState {
  readonly stage: "none" | "running" | "ended";
  readonly total: number;
  readonly done: number;
  /** Kept so far. */
  readonly grooves: number;
  readonly phrases: number;
  readonly passedOver: number;
  readonly failures: readonly ImportFailure[];
  readonly isCancelled: boolean;
  /** Why it ended before all files were read. */
  readonly trouble: string | null;
}

const NONE: ImportState = {
  stage: "none",
  total: 0,
  done: 0,
  grooves: 0,
  phrases: 0,
  passedOver: 0,
  failures: [],
  isCancelled: false,
  trouble: null,
};

export class ShelfImport extends Store<ImportState, Partial<ImportState>> {
  readonly #shelf: Shelf;
  readonly #reader: FileReader;
  readonly #making: Making;
  /** The run under way; another object once it was cancelled. */
  #run: object | undefined;
  #keeping: Promise<void> = Promise.resolve();

  constructor(shelf: Shelf, reader: FileReader, making: Making) {
    super(NONE, (state, change) => ({ ...state, ...change }));
    this.#shelf = shelf;
    this.#reader = reader;
    this.#making = making;
  }

  /** Imports all that was chosen; settles when it is over. While one runs, another is not begun. */
  async start({ files, passedOver }: Chosen): Promise<void> {
    if (this.get().stage === "running") return;
    await this.#shelf.open();
    const run = {};
    this.#run = run;
    this.dispatch({ ...NONE, stage: "running", total: files.length, passedOver });
    const there = new Map<string, ShelfEntry>();
    for (const entry of this.#shelf.index.all()) {
      if (entry.from.kind === "imported") there.set(entry.from.file, entry);
    }
    const waiting = files[Symbol.iterator]();
    const worker = async (): Promise<void> => {
      for (const file of waiting) {
        await this.#importOne(run, file, there);
        if (this.#run !== run) return;
      }
    };
    await Promise.all(Array.from({ length: this.#reader.atOnce }, worker));
    if (this.#run === run) this.#end({});
  }

  /** Ends the import. What was kept stays; nothing is half-kept. */
  cancel(): void {
    if (this.get().stage === "running") this.#end({ isCancelled: true });
  }

  #end(change: Partial<ImportState>): void {
    this.#run = undefined;
    this.#reader.stop();
    this.dispatch({ stage: "ended", ...change });
  }

  async #importOne(
    run: object,
    { path, file }: ChosenFile,
    there: ReadonlyMap<string, ShelfEntry>,
  ): Promise<void> {
    const other = there.get(path);
    if (other) {
      const reason = `It is on the Shelf already, as "${other.name}". Put that one away to import it anew.`;
      return this.#failed(path, reason);
    }
    const read = await this.#read(path, file);
    if (this.#run !== run) return;
    if (read.kind === "failed") return this.#failed(path, read.reason);
    // One after the other: the next one's name depends on the names that are there.
    this.#keeping = this.#keeping.then(() => this.#keep(run, path, read));
    return this.#keeping;
  }

  async #keep(run: object, path: string, read: FileRead & { readonly kind: "found" }): Promise<void> {
    if (this.#run !== run) return;
    try {
      await this.#shelf.keep(this.#entryOf(path, read));
      const { grooves, phrases } = this.get();
      this.#count(read.as === "groove" ? { grooves: grooves + 1 } : { phrases: phrases + 1 });
    } catch (error) {
      if (error instanceof EntryError || error instanceof NameTakenError) this.#failed(path, error.message);
      else if (error instanceof StoreError) this.#storeFailed(run, path, error);
      else throw error;
    }
  }

  async #read(path: string, file: ChosenFile["file"]): Promise<FileRead> {
    let bytes: ArrayBuffer;
    try {
      bytes = await (await file()).arrayBuffer();
    } catch (error) {
      return { kind: "failed", reason: `The file could not be opened (${String(error)}). Choose it again.` };
    }
    return this.#reader.read(path, bytes);
  }

  #entryOf(path: string, { as, music, bar }: FileRead & { readonly kind: "found" }): ShelfEntry {
    const name = this.#freeName(nameOf(path));
    const from = { kind: "imported", file: path.slice(-1000), bar } as const;
    const madeAtMs = this.#making.nowMs();
    const written: Written =
      as === "groove" ? { kind: as, music } : { kind: as, music: { ...music, role: "call" } };
    return shelfEntry(written, { id: this.#making.id(), name, from, madeAtMs });
  }

  /** The name, with a number behind it where another entry has it. */
  #freeName(name: string): string {
    for (let number = 1; ; number += 1) {
      const ending = number === 1 ? "" : `, ${number}`;
      const numbered = `${name.slice(0, LONGEST_NAME - ending.length).trim()}${ending}`;
      if (!this.#shelf.index.otherOfName(numbered, null)) return numbered;
    }
  }

  /** A store that takes one no more takes none of the others: the import ends. */
  #storeFailed(run: object, path: string, error: StoreError): void {
    this.#failed(path, error.message);
    if (this.#run === run) this.#end({ trouble: error.message });
  }

  #failed(path: string, reason: string): void {
    this.#count({ failures: [...this.get().failures, { path, reason }] });
  }

  #count(change: Partial<ImportState>): void {
    this.dispatch({ ...change, done: this.get().done + 1 });
  }
}

/**
 * The name of an entry from that of its file.
 *
 * @example
 * nameOf("lessons/mill_wheel-2.mid") // => "mill wheel-2"
 */
export function nameOf(path: string): string {
  const file = path.split("/").at(-1) ?? path;
  const bare = file
    .replace(/\.[a-z]+$/i, "")
    .replaceAll(/[_\s\p{Cc}]+/gu, " ")
    .trim();
  return bare === "" ? "Imported" : bare.slice(0, LONGEST_NAME);
}
