/** The files that a page is writing just now. A page knows each by an id, and never by its place. */
import { randomUUID } from "node:crypto";
import { basename } from "node:path";
import type { DoorAnswered } from "../../engine/records/index.ts";
import { fileTrouble } from "./fileTrouble.ts";
import { WholeFile } from "./wholeFile.ts";

interface Open {
  readonly file: WholeFile;
  /** What follows once the file is in its place; gives a sentence if that did not go well. */
  readonly afterwards: () => Promise<string | null>;
}

const NOTHING: Open["afterwards"] = async () => null;

export class Writings {
  readonly #open = new Map<string, Open>();

  /** Begins the file that will stand at `path`. */
  async begin(path: string, afterwards = NOTHING): Promise<DoorAnswered<"beginWriting">> {
    const isBeingWritten = [...this.#open.values()].some(({ file }) => file.path === path);
    if (isBeingWritten) return { kind: "failed", reason: `${basename(path)} is being written just now.` };
    const id = randomUUID();
    try {
      const file = await WholeFile.begin(path, id);
      this.#open.set(id, { file, afterwards });
      return { kind: "begun", id, name: file.name };
    } catch (error) {
      return failed(basename(path), error);
    }
  }

  async add(id: string, bytes: Uint8Array): Promise<DoorAnswered<"addToWriting">> {
    const writing = this.#open.get(id);
    if (!writing) return unknownWriting;
    try {
      await writing.file.add(bytes);
      return { kind: "added" };
    } catch (error) {
      await this.giveUp(id);
      return failed(writing.file.name, error);
    }
  }

  async end(id: string, bytes: number): Promise<DoorAnswered<"endWriting">> {
    const writing = this.#open.get(id);
    if (!writing) return unknownWriting;
    this.#open.delete(id);
    const { file, afterwards } = writing;
    try {
      await file.end(bytes);
    } catch (error) {
      return failed(file.name, error);
    }
    return { kind: "saved", name: file.name, trouble: await afterwards() };
  }

  async giveUp(id: string): Promise<void> {
    const writing = this.#open.get(id);
    this.#open.delete(id);
    await writing?.file.giveUp();
  }

  /** When the page is gone, nobody will end what it began. */
  async giveUpAll(): Promise<void> {
    await Promise.all([...this.#open.keys()].map((id) => this.giveUp(id)));
  }
}

const unknownWriting = {
  kind: "failed",
  reason: "This file is not being written any more. Save it again.",
} as const;

function failed(name: string, error: unknown): { readonly kind: "failed"; readonly reason: string } {
  return { kind: "failed", reason: fileTrouble(`${name} was not saved`, error) };
}
