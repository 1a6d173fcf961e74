/** What is read of each student when a lesson begins, and let go when it ends. */
import type { LessonState } from "../../engine/session/index.ts";
import { Store, type Watched } from "../session/store.ts";
import { storeErrorOf } from "../store/index.ts";

export interface ReadState<Value> {
  readonly of: ReadonlyMap<string, Value>;
  /** Why it could not be read; a round begins as with somebody new then. */
  readonly trouble: string | null;
}

export class ReadForLesson<Value> extends Store<ReadState<Value>, Partial<ReadState<Value>>> {
  readonly #lesson: Watched<LessonState>;
  readonly #read: (studentId: string, lessonId: string) => Promise<Value>;
  readonly #unread: string;
  #lessonId: string | undefined;

  /**
   * @param read what is kept of a student, but of this lesson.
   * @param unread a sentence for where that fails.
   */
  constructor(
    lesson: Watched<LessonState>,
    read: (studentId: string, lessonId: string) => Promise<Value>,
    unread: string,
  ) {
    super({ of: new Map(), trouble: null }, (state, change) => ({ ...state, ...change }));
    this.#lesson = lesson;
    this.#read = read;
    this.#unread = unread;
    lesson.subscribe(() => this.#follow());
    this.#follow();
  }

  /** Of a student; `undefined` of nobody in particular, and until it is read. */
  by(studentId: string | null): Value | undefined {
    return studentId === null ? undefined : this.get().of.get(studentId);
  }

  #follow(): void {
    const { began, stage } = this.#lesson.get();
    const lessonId = stage === "ended" ? undefined : began?.lessonId;
    if (lessonId === this.#lessonId) return;
    this.#lessonId = lessonId;
    this.dispatch({ of: new Map(), trouble: null });
    if (!began || lessonId === undefined) return;
    for (const studentId of began.studentIds) void this.#readOne(studentId, lessonId);
  }

  async #readOne(studentId: string, lessonId: string): Promise<void> {
    try {
      const value = await this.#read(studentId, lessonId);
      if (this.#lessonId === lessonId) this.dispatch({ of: new Map([...this.get().of, [studentId, value]]) });
    } catch (error) {
      if (this.#lessonId === lessonId)
        this.dispatch({ trouble: `${this.#unread} ${storeErrorOf(error).message}` });
    }
  }
}
