/**
 * Writes the lesson's log down while it is made: what has happened is in the database within a quarter of a second, and
 * nothing that is played ever waits for it. Where it cannot be written it stays in memory, is told, and is tried again.
 *
 * Of several windows on one studio, one writes (Web Locks API, W3C); the others follow it ({@link LessonFollower}), and
 * one of them takes over when it is closed.
 */
import type { LessonState, SessionEvent } from "../../engine/session/index.ts";
import type { Milliseconds } from "../../engine/units/index.ts";
import { joinChunks, type StudioDatabase, storeErrorOf, writeEvents } from "../store/index.ts";
import type { LessonLog } from "./lessonLog.ts";
import { Store } from "./store.ts";

/**
 * From one writing to the next. Our choice: with the writing itself (some 10 ms) well within the quarter of a second that
 * may be lost, on a computer that is busy too, and seldom enough that on a slow one, where a writing takes the page 3 ms, it
 * costs less than 2 in 100 of the page's time.
 */
const WRITE_EVERY_MS: Milliseconds = 160;
/** After a failure it is tried again so much later. Our choice. */
const TRY_AGAIN_MS: Milliseconds = 2000;
/** One writer for the studio of this computer. */
const LOCK = "throneside-lesson";

export interface Writing {
  /** `asking` until it is known; `following`: another window writes. */
  readonly stage: "asking" | "writing" | "following";
  /** Why the latest is not written, and what to do; `null` while all is well. */
  readonly trouble: string | null;
  /** What went wrong in the lesson besides writing it; it stays until the next lesson begins. */
  readonly mishap: string | null;
}

/** What it needs of the browser; a test brings its own. */
export interface WriterPlace {
  /** `undefined` where the browser has none: then every window writes. */
  readonly locks: Pick<LockManager, "request"> | undefined;
  /** Told when the window is hidden or left: what is not yet written is written now. */
  readonly onLeaving: (write: () => void) => void;
  readonly nowMs: () => Milliseconds;
}

export const THIS_WINDOW: WriterPlace = {
  locks: globalThis.navigator?.locks,
  onLeaving: (write) => {
    window.addEventListener("pagehide", write);
    document.addEventListener("visibilitychange", () => {
      if (document.visibilityState === "hidden") write();
    });
  },
  nowMs: () => performance.now(),
};

/** Events of one lesson that are not yet written, and the lesson after them. */
interface Batch {
  readonly lessonId: string;
  state: LessonState;
  events: SessionEvent[];
}

export class LessonWriter extends Store<Writing, Partial<Writing>> {
  readonly #database: StudioDatabase;
  readonly #log: LessonLog;
  readonly #place: WriterPlace;
  /** Oldest first; more than one only where a lesson began while the one before it was not yet written. */
  #batches: Batch[] = [];
  /** So many events of the log's lesson are written or in a batch. */
  #taken = { lessonId: "", count: 0 };
  #release: (() => void) | undefined;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #writing: Promise<void> | undefined;
  #lastMs = Number.NEGATIVE_INFINITY;

  constructor(database: StudioDatabase, log: LessonLog, place: WriterPlace = THIS_WINDOW) {
    super({ stage: "asking", trouble: null, mishap: null }, (state, change) => ({ ...state, ...change }));
    this.#database = database;
    this.#log = log;
    this.#place = place;
    log.subscribe(() => {
      this.#take();
      this.#writeSoon();
    });
    place.onLeaving(() => void this.write());
  }

  /** The events that are in memory only, for a file of their own where the storage takes nothing. */
  get unwritten(): readonly SessionEvent[] {
    return this.#batches.flatMap(({ events }) => events);
  }

  /**
   * Asks to be the one that writes; resolves when that is known. While another window writes, it waits for its turn, and
   * its stage changes when that comes.
   */
  async claim(): Promise<void> {
    const { locks } = this.#place;
    if (!locks) {
      this.dispatch({ stage: "writing" });
      return;
    }
    await new Promise<void>((resolve, reject) => {
      locks
        .request(LOCK, { ifAvailable: true }, (lock) => {
          if (lock) return this.#hold(resolve);
          this.dispatch({ stage: "following" });
          locks.request(LOCK, () => this.#hold()).catch(reject);
          resolve();
          return undefined;
        })
        .catch(reject);
    });
  }

  /** Lets another window write. What is not yet written is written first. */
  async release(): Promise<void> {
    await this.write();
    this.#release?.();
    this.#release = undefined;
  }

  /** So many events of a lesson were read from the database: they are not written again. Call it before the log takes them up. */
  isWritten(lessonId: string, count: number): void {
    this.#taken = { lessonId, count };
  }

  /** Writes all that is not yet written, now; resolves when it is, or when it cannot be. */
  async write(): Promise<void> {
    clearTimeout(this.#timer);
    this.#timer = undefined;
    while (this.#writing) await this.#writing;
    if (this.get().stage !== "writing" || this.#batches.length === 0) return;
    this.#writing = this.#writeNow();
    await this.#writing;
  }

  #hold(then: () => void = () => {}): Promise<void> {
    this.dispatch({ stage: "writing" });
    then();
    this.#writeSoon();
    return new Promise((resolve) => {
      this.#release = resolve;
    });
  }

  /** Takes what is new in the log. */
  #take(): void {
    const state = this.#log.get();
    const lessonId = state.began?.lessonId;
    if (lessonId === undefined) return;
    const from = this.#taken.lessonId === lessonId ? this.#taken.count : 0;
    const fresh = this.#log.events.slice(from);
    this.#taken = { lessonId, count: this.#log.events.length };
    const batch = this.#batches.find((other) => other.lessonId === lessonId);
    if (!batch) this.#batches.push({ lessonId, state, events: fresh });
    else {
      batch.state = state;
      // One by one: a file read at once may hold more strikes than a function takes arguments.
      for (const event of fresh) batch.events.push(event);
    }
  }

  /** At once when the last writing is long enough ago, else when it is; a strike does not wait for a timer that is late. */
  #writeSoon(): void {
    if (this.#writing || this.#batches.length === 0) return;
    const { stage, trouble } = this.get();
    if (stage !== "writing") return;
    const everyMs = trouble === null ? WRITE_EVERY_MS : TRY_AGAIN_MS;
    const waitMs = this.#lastMs + everyMs - this.#place.nowMs();
    if (waitMs <= 0) void this.write();
    else this.#timer ??= setTimeout(() => void this.write(), waitMs);
  }

  async #writeNow(): Promise<void> {
    this.#lastMs = this.#place.nowMs();
    const batches = this.#batches;
    this.#batches = [];
    try {
      for (let batch = batches[0]; batch; batch = batches[0]) {
        await writeEvents(this.#database, batch.state, batch.events);
        batches.shift();
        if (batch.events.some(isPause)) await joinChunks(this.#database, batch.lessonId);
      }
      if (this.get().trouble !== null) this.dispatch({ trouble: null });
    } catch (error) {
      this.#batches = together(batches, this.#batches);
      this.dispatch({ trouble: unwrittenWords(storeErrorOf(error).message) });
    } finally {
      this.#writing = undefined;
    }
    this.#writeSoon();
  }
}

/** A moment at which nobody plays: there is time to join what was written in small pieces. */
function isPause({ kind }: SessionEvent): boolean {
  return kind === "round-ended" || kind === "lesson-ended";
}

/** What could not be written, and what came since. */
function together(before: readonly Batch[], since: readonly Batch[]): Batch[] {
  const all = before.map((batch) => {
    const later = since.find(({ lessonId }) => lessonId === batch.lessonId);
    return later ? { ...later, events: [...batch.events, ...later.events] } : batch;
  });
  return [...all, ...since.filter(({ lessonId }) => !before.some((batch) => batch.lessonId === lessonId))];
}

function unwrittenWords(why: string): string {
  return `The lesson cannot be written down at the moment. ${why} All of it is still held in this window: keep it open. It is tried again every two seconds; to be safe, save the lesson as a file (Studio, Backup).`;
}
