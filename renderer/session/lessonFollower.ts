/**
 * Follows, in a window that does not write, the lesson another window writes: it reads what is new whenever the database
 * has changed, and folds it in.
 */
import { Dexie, liveQuery, type Subscription } from "dexie";
import { type LessonState, lessonState, NEW_LESSON, type SessionEvent } from "../../engine/session/index.ts";
import { readLesson, type StudioDatabase, storeErrorOf } from "../store/index.ts";
import { Store } from "./store.ts";

export interface Following {
  readonly lesson: LessonState;
  /** Why it cannot be followed; `null` while it can. */
  readonly trouble: string | null;
}

export class LessonFollower extends Store<Following, Partial<Following>> {
  readonly #database: StudioDatabase;
  readonly #events: SessionEvent[] = [];
  #subscription: Subscription | undefined;
  /** Readings come one after the other. */
  #reading: Promise<void> = Promise.resolve();

  constructor(database: StudioDatabase) {
    super({ lesson: NEW_LESSON, trouble: null }, (state, change) => ({ ...state, ...change }));
    this.#database = database;
  }

  /** All events so far; the same array grows. */
  get events(): readonly SessionEvent[] {
    return this.#events;
  }

  /** Follows a lesson until {@link stop}. */
  follow(lessonId: string): void {
    this.stop();
    this.#events.length = 0;
    this.dispatch({ lesson: NEW_LESSON, trouble: null });
    this.#subscription = liveQuery(() => this.#latest(lessonId)).subscribe({
      next: () => this.#readSoon(lessonId),
      error: (error) => this.dispatch({ trouble: storeErrorOf(error).message }),
    });
  }

  stop(): void {
    this.#subscription?.unsubscribe();
    this.#subscription = undefined;
  }

  /** The last rows of a lesson: cheap to ask for, and changed by every writing. */
  #latest(lessonId: string): Promise<readonly unknown[]> {
    const { events, hits } = this.#database;
    return Promise.all([
      events.where("[lessonId+seq]").between([lessonId, 0], [lessonId, Dexie.maxKey]).last(),
      hits.where("[lessonId+fromSeq]").between([lessonId, 0], [lessonId, Dexie.maxKey]).last(),
    ]);
  }

  #readSoon(lessonId: string): void {
    this.#reading = this.#reading.then(async () => {
      try {
        const { lesson } = this.get();
        const { events } = await readLesson(this.#database, lessonId, lesson.seq);
        if (!this.#subscription || events.length === 0) return;
        // One by one: a long lesson has more strikes than a function takes arguments.
        for (const event of events) this.#events.push(event);
        this.dispatch({ lesson: lessonState(events, lesson), trouble: null });
      } catch (error) {
        this.dispatch({ trouble: storeErrorOf(error).message });
      }
    });
  }
}
