/**
 * The page's side of the workers that write music down: as many as this computer has cores for, each with one thing to
 * write at a time. A worker that breaks or takes too long is ended, and its file is told as a failure.
 */
import type { Hit, KitMap } from "../../../../engine/kit/index.ts";
import type { Milliseconds } from "../../../../engine/units/index.ts";
import type { FileRead, FileReader } from "../import/shelfImport.ts";
import type { TakeClick, WrittenDown } from "./writeDown.ts";
import type { WritingAnswer, WritingRequest } from "./writingMessages.ts";

/** More do not help: keeping is done one after the other. Our choice. */
const MOST_WORKERS = 4;
/** An hour of playing takes a few seconds. Our choice: what takes this long never ends. */
const TOO_LONG_MS: Milliseconds = 60_000;

const STOPPED = "It was given up.";

interface Writer {
  readonly worker: Worker;
  /** Ends what it is writing. */
  giveUp: ((reason: string) => void) | undefined;
}

export class Writers implements FileReader {
  readonly atOnce: number;
  readonly #maps: () => readonly KitMap[];
  readonly #writers = new Set<Writer>();

  /** @param maps kit maps, the one in use first. */
  constructor(maps: () => readonly KitMap[], cores: number) {
    this.#maps = maps;
    this.atOnce = Math.min(MOST_WORKERS, Math.max(1, cores));
  }

  async read(_path: string, bytes: ArrayBuffer): Promise<FileRead> {
    try {
      const answer = await this.#ask({ kind: "file", bytes, maps: this.#maps() }, [bytes]);
      return answer.kind === "file" ? answer.read : { kind: "failed", reason: STOPPED };
    } catch (error) {
      if (!(error instanceof WritingError)) throw error;
      return { kind: "failed", reason: error.message };
    }
  }

  async writeDown(hits: readonly Hit[], click: TakeClick | null, later: number): Promise<WrittenDown> {
    try {
      const answer = await this.#ask({ kind: "take", hits, click, later }, []);
      return answer.kind === "take" ? answer.written : { kind: "failed", reason: STOPPED };
    } catch (error) {
      if (!(error instanceof WritingError)) throw error;
      return { kind: "failed", reason: error.message };
    }
  }

  /** Ends all workers, whatever they are at. */
  stop(): void {
    for (const writer of this.#writers) this.#end(writer, STOPPED);
  }

  #ask(request: WritingRequest, moved: Transferable[]): Promise<WritingAnswer> {
    const writer = this.#free();
    return new Promise((done, failed) => {
      const end = (): void => {
        clearTimeout(timer);
        writer.giveUp = undefined;
      };
      const giveUp = (reason: string): void => {
        end();
        failed(new WritingError(reason));
      };
      const timer = setTimeout(
        () => this.#end(writer, "It took longer than a minute to read and was given up."),
        TOO_LONG_MS,
      );
      writer.giveUp = giveUp;
      writer.worker.onmessage = ({ data }: MessageEvent<WritingAnswer>) => {
        end();
        done(data);
      };
      writer.worker.onerror = (event) => {
        this.#end(writer, `It could not be read: ${event.message || "a part of the program did not load"}.`);
      };
      writer.worker.postMessage(request, moved);
    });
  }

  /** One that is idle, or a new one. */
  #free(): Writer {
    for (const writer of this.#writers) if (writer.giveUp === undefined) return writer;
    const worker = new Worker(new URL("./writing.worker.ts", import.meta.url), { type: "module" });
    const writer: Writer = { worker, giveUp: undefined };
    this.#writers.add(writer);
    return writer;
  }

  #end(writer: Writer, reason: string): void {
    writer.worker.terminate();
    this.#writers.delete(writer);
    writer.giveUp?.(reason);
  }
}

/** Thrown when something could not be written down; a sentence. */
class WritingError extends Error {
  override readonly name = "WritingError";
}
