/**
 * Opens a lesson that is kept, and writes remarks into it. Remarks are events like all others: one that is changed is
 * written again, one that is taken back is withdrawn, and the log keeps all of it.
 */
import type { Student } from "../../../engine/records/index.ts";
import type { LessonState, RemarkState, SessionEvent } from "../../../engine/session/index.ts";
import { LessonFollower } from "../../session/lessonFollower.ts";
import type { LessonLog, NewEvent } from "../../session/lessonLog.ts";
import { Store } from "../../session/store.ts";
import { readLesson, type StudioDatabase, storeErrorOf, studentsOf, writeEvents } from "../../store/index.ts";
import { type LaneSeen, lanesSeen, writtenVoices } from "./lanes.ts";
import { Moments } from "./moments.ts";
import { type Strikes, strikesOf } from "./strikes.ts";

/** Name of the measure from the wish to open a lesson to all of it being there. */
export const LESSON_OPENED = "lesson-opened";

/** A lesson that goes on is shown anew at most so often. Our choice: as good as at once, for one who looks on. */
const SHOWN_EVERY_MS = 400;
/** And so seldom that it costs no more than a twentieth of the time, however long the lesson is. Our choice. */
const SHARE_OF_TIME = 1 / 20;

/** A lesson as it lies open. */
export interface OpenLesson {
  readonly lessonId: string;
  readonly moments: Moments;
  /** Of all kits. */
  readonly strikes: Strikes;
  /** At least one. */
  readonly lanes: readonly LaneSeen[];
  readonly students: readonly Student[];
  /** Where a lesson that has not ended is on; what is played comes in as it is written. `null`: it has ended. */
  readonly on: "here" | "elsewhere" | null;
  /** Why what another window writes does not come in; `null` while it does. */
  readonly notFollowed: string | null;
  /** Rows that could not be read, and rows a newer program wrote. */
  readonly setAside: number;
  readonly newer: number;
  /** What can be undone, the latest last. */
  readonly undo: readonly RemarkChange[];
  /** Why the latest remark is not kept; `null` while all is well. */
  readonly trouble: string | null;
}

export type ReplayState =
  | { readonly stage: "loading" }
  | { readonly stage: "open"; readonly lesson: OpenLesson }
  /** There is no lesson of that id. */
  | { readonly stage: "none" }
  | { readonly stage: "failed"; readonly reason: string };

/** A remark as it shall be; `null`: none of that id. */
export interface RemarkChange {
  readonly remarkId: string;
  readonly now: Pick<RemarkState, "time" | "lane" | "text" | "flagged"> | null;
}

export interface DeskPlace {
  readonly database: StudioDatabase;
  /** The log of the lesson that is on in this window. */
  readonly log: LessonLog;
  readonly newId: () => string;
}

export class ReplayDesk extends Store<ReplayState, ReplayState> {
  readonly #place: DeskPlace;
  #writing: Promise<void> = Promise.resolve();
  #opening = 0;
  #unfollow: () => void = () => {};

  constructor(place: DeskPlace) {
    super({ stage: "loading" }, (_, state) => state);
    this.#place = place;
  }

  /** Opens a lesson; what goes wrong is in the state. */
  async open(lessonId: string): Promise<void> {
    this.#opening += 1;
    const opening = this.#opening;
    const start = performance.now();
    this.#unfollow();
    this.dispatch({ stage: "loading" });
    const state = await this.#read(lessonId);
    // Another one may have been asked for meanwhile.
    if (opening !== this.#opening) return;
    this.dispatch(state);
    if (state.stage === "open" && state.lesson.on !== null) this.#follow(state.lesson);
    performance.measure(LESSON_OPENED, { start, end: performance.now() });
  }

  /** The page is left: nothing is followed any more. */
  close(): void {
    this.#opening += 1;
    this.#unfollow();
  }

  /** Whether remarks can be written: a lesson that is on in another window is that window's to write. */
  canRemark({ moments: { whole } }: OpenLesson): boolean {
    return whole.stage === "ended" || this.#isOn(whole);
  }

  /** Writes a remark, a new one or another wording. The way back is kept for {@link undo}. */
  async remark(change: RemarkChange): Promise<void> {
    await this.#change(({ undo, moments }) => ({ change, undo: [...undo, wayBack(moments.whole, change)] }));
  }

  /** An id for a new remark. */
  newRemarkId(): string {
    return this.#place.newId();
  }

  /** Takes the latest change of a remark back. */
  async undo(): Promise<void> {
    await this.#change(({ undo }) => {
      const change = undo.at(-1);
      return change && { change, undo: undo.slice(0, -1) };
    });
  }

  async #read(lessonId: string): Promise<ReplayState> {
    const { database, log } = this.#place;
    try {
      const [kept, students] = await Promise.all([readLesson(database, lessonId), studentsOf(database)]);
      // Of the lesson that is on in this window the latest is in memory before it is in storage.
      const read = this.#isOn(log.get(), lessonId) ? { ...kept, events: [...log.events] } : kept;
      const moments = new Moments(read.events);
      const { began } = moments.whole;
      if (!began && read.setAside + read.newer === 0) return { stage: "none" };
      if (!began) return { stage: "failed", reason: unreadable(read.newer) };
      const sat = began.studentIds.flatMap((id) => students.filter((student) => student.id === id));
      return {
        stage: "open",
        lesson: {
          lessonId,
          ...this.#seen(moments, sat),
          students: sat,
          setAside: read.setAside,
          newer: read.newer,
          notFollowed: null,
          undo: [],
          trouble: null,
        },
      };
    } catch (error) {
      return { stage: "failed", reason: storeErrorOf(error).message };
    }
  }

  /** What is derived from the events. */
  #seen(moments: Moments, students: readonly Student[]) {
    const { whole } = moments;
    const strikes = strikesOf(moments.events, writtenVoices(whole));
    const on =
      whole.stage === "ended" ? null : this.#isOn(whole) ? ("here" as const) : ("elsewhere" as const);
    return { moments, strikes, lanes: lanesSeen(whole, strikes, students), on };
  }

  /** Shows what comes, until the lesson has ended or the page is left. */
  #follow({ lessonId, on }: OpenLesson): void {
    const { log, database } = this.#place;
    const follower = new LessonFollower(database);
    const source = on === "here" ? log : follower;
    let timer: ReturnType<typeof setTimeout> | undefined;
    let waitMs = 0;
    const show = (): void => {
      timer = undefined;
      const lesson = this.#lesson();
      if (lesson?.lessonId !== lessonId || source.events.length <= lesson.moments.events.length) return;
      const start = performance.now();
      const seen = this.#seen(new Moments([...source.events]), lesson.students);
      this.dispatch({ stage: "open", lesson: { ...lesson, ...seen, notFollowed: null } });
      waitMs = Math.max(SHOWN_EVERY_MS, (performance.now() - start) / SHARE_OF_TIME);
      if (seen.on === null) this.#unfollow();
    };
    const stop = source.subscribe(() => {
      const trouble = follower.get().trouble;
      const lesson = this.#lesson();
      if (trouble !== null && lesson?.lessonId === lessonId)
        this.dispatch({ stage: "open", lesson: { ...lesson, notFollowed: trouble } });
      // Another lesson may have begun in this window: that is none of this page's.
      if (on === "here" && log.get().began?.lessonId !== lessonId) return;
      timer ??= setTimeout(show, waitMs);
    });
    if (on === "elsewhere") follower.follow(lessonId);
    this.#unfollow = () => {
      stop();
      follower.stop();
      clearTimeout(timer);
      this.#unfollow = () => {};
    };
  }

  /** One after the other, so that each has its own place in the log, and its own way back. */
  async #change(
    next: (
      lesson: OpenLesson,
    ) => { readonly change: RemarkChange; readonly undo: readonly RemarkChange[] } | undefined,
  ): Promise<void> {
    this.#writing = this.#writing.then(async () => {
      const lesson = this.#lesson();
      const wanted = lesson && next(lesson);
      if (!lesson || !wanted) return;
      const { change, undo } = wanted;
      try {
        const events = await this.#write(lesson, change);
        // The lesson may have gone on while the remark was written.
        const now = this.#lesson() ?? lesson;
        const seen =
          events.length >= now.moments.events.length ? this.#seen(new Moments(events), now.students) : {};
        this.dispatch({ stage: "open", lesson: { ...now, ...seen, undo, trouble: null } });
      } catch (error) {
        const trouble = `The remark is not kept. ${storeErrorOf(error).message}`;
        this.dispatch({ stage: "open", lesson: { ...lesson, trouble } });
      }
    });
    await this.#writing;
  }

  async #write({ lessonId, moments }: OpenLesson, change: RemarkChange): Promise<readonly SessionEvent[]> {
    const { database, log } = this.#place;
    if (this.#isOn(moments.whole)) {
      log.add(withoutPlace(change));
      return [...log.events];
    }
    // Another window may have written a remark since this one read the lesson.
    const { events: since } = await readLesson(database, lessonId, moments.whole.seq);
    const events = [...moments.events, ...since];
    const before = new Moments(events).whole;
    if (before.stage !== "ended")
      throw new Error("This lesson is on in another window. Write the remark there, or when it has ended.");
    const event: SessionEvent = {
      ...withoutPlace(change),
      seq: before.seq + 1,
      time: before.time,
      lane: change.now?.lane ?? 0,
    };
    const all = [...events, event];
    await writeEvents(database, new Moments(all).whole, [event]);
    return all;
  }

  #isOn({ began }: LessonState, lessonId = began?.lessonId): boolean {
    const on = this.#place.log.get().began;
    return on !== null && on.lessonId === lessonId;
  }

  #lesson(): OpenLesson | undefined {
    const state = this.get();
    return state.stage === "open" ? state.lesson : undefined;
  }
}

type RemarkEvent = Extract<NewEvent, { readonly kind: "remark" | "remark-withdrawn" }>;

function withoutPlace({ remarkId, now }: RemarkChange): RemarkEvent {
  if (!now) return { kind: "remark-withdrawn", remarkId };
  const { time, lane, text, flagged } = now;
  return { kind: "remark", remarkId, text, flagged, about: time, lane };
}

/** As the remark stands before it is changed. */
function wayBack({ remarks }: LessonState, { remarkId }: RemarkChange): RemarkChange {
  const before = remarks.find((remark) => remark.remarkId === remarkId);
  if (!before) return { remarkId, now: null };
  const { time, lane, text, flagged } = before;
  return { remarkId, now: { time, lane, text, flagged } };
}

function unreadable(newer: number): string {
  return newer > 0
    ? "This lesson was written by a newer version of the program. Open it there, or bring this one up to date."
    : "The beginning of this lesson cannot be read. What was read of it is set aside and can be saved as a file (Studio).";
}
