/** What the students of the lesson that is on heard in Back Turned in earlier lessons: where they stand, what they confuse. */
import type { HeardAs, RungAnswer } from "../../engine/ear/index.ts";
import { heardAsBy, playOf, rungAnswersOf } from "../../engine/rounds/index.ts";
import { type LessonState, lessonState } from "../../engine/session/index.ts";
import { Store, type Watched } from "../session/store.ts";
import { readLesson, resultsOfStudent, type StudioDatabase, storeErrorOf } from "../store/index.ts";

/** The latest lessons say how it is now. Our choice: a season of weekly ones; reading them takes a moment. */
const LESSONS_BACK = 12;

export interface HeardBefore {
  /** The oldest first. */
  readonly answers: readonly RungAnswer[];
  readonly heard: readonly HeardAs[];
}

export const NOTHING_HEARD: HeardBefore = { answers: [], heard: [] };

/**
 * @param butOf a lesson that is on: its round tells itself.
 * @throws StoreError
 */
export async function heardBefore(
  database: StudioDatabase,
  studentId: string,
  butOf?: string,
): Promise<HeardBefore> {
  const results = await resultsOfStudent(database, studentId);
  // Ids of lessons sort by time. A lesson without a sound in its tallies need not be read.
  const lessons = new Set(
    results.flatMap(({ item, lessonId }) => (item.startsWith("sound:") ? [lessonId] : [])),
  );
  const answers: RungAnswer[] = [];
  const heard: HeardAs[] = [];
  for (const id of [...lessons]
    .filter((each) => each !== butOf)
    .sort()
    .slice(-LESSONS_BACK)) {
    const { events } = await readLesson(database, id);
    for (const { round, steps } of lessonState(events).rounds) {
      if (round !== "back-turned") continue;
      const { own } = playOf(
        "back-turned",
        steps.map(({ step }) => step),
      );
      answers.push(...rungAnswersOf(own, studentId));
      heard.push(...heardAsBy(own, studentId));
    }
  }
  return { answers, heard };
}

export interface HeardEarlierState {
  readonly of: ReadonlyMap<string, HeardBefore>;
  /** Why it could not be read; the round begins as with somebody new then. */
  readonly trouble: string | null;
}

/** Reads it for each student when a lesson begins. */
export class HeardEarlier extends Store<HeardEarlierState, Partial<HeardEarlierState>> {
  readonly #database: StudioDatabase;
  readonly #lesson: Watched<LessonState>;
  #lessonId: string | undefined;

  constructor(database: StudioDatabase, lesson: Watched<LessonState>) {
    super({ of: new Map(), trouble: null }, (state, change) => ({ ...state, ...change }));
    this.#database = database;
    this.#lesson = lesson;
    lesson.subscribe(() => this.#follow());
    this.#follow();
  }

  /** Of a student; nothing of nobody in particular. */
  by(studentId: string | null): HeardBefore {
    return (studentId === null ? undefined : this.get().of.get(studentId)) ?? NOTHING_HEARD;
  }

  #follow(): void {
    const { began, stage } = this.#lesson.get();
    const lessonId = stage === "ended" ? undefined : began?.lessonId;
    if (lessonId === this.#lessonId) return;
    this.#lessonId = lessonId;
    this.dispatch({ of: new Map(), trouble: null });
    for (const studentId of began && lessonId !== undefined ? began.studentIds : [])
      void this.#read(studentId, lessonId);
  }

  async #read(studentId: string, lessonId: string | undefined): Promise<void> {
    try {
      const before = await heardBefore(this.#database, studentId, lessonId);
      if (this.#lessonId === lessonId)
        this.dispatch({ of: new Map([...this.get().of, [studentId, before]]) });
    } catch (error) {
      this.dispatch({
        trouble: `What was heard in earlier lessons could not be read. ${storeErrorOf(error).message}`,
      });
    }
  }
}
