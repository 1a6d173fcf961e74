/** A page with the book of lessons, for a test to play in. */
import type { Hit } from "../../../engine/kit/index.ts";
import { LessonBook } from "../../../renderer/session/lessonBook.ts";
import { LessonFollower } from "../../../renderer/session/lessonFollower.ts";
import { LessonLog } from "../../../renderer/session/lessonLog.ts";
import { readLesson, StudioDatabase } from "../../../renderer/store/index.ts";

const STRIKE_EVERY_MS = 5;
const HANDED_EVERY_MS = 20;

const database = new StudioDatabase("writing");
const book = new LessonBook(database);
const follower = new LessonFollower(database);
await book.open();

function strikes(count: number): readonly Hit[] {
  const time = performance.now() / 1000;
  return Array.from({ length: count }, (_, index) => ({
    time: time + index / 1e4,
    voice: "snare",
    zone: "head",
    velocity: 0.5,
    pad: 38,
  }));
}

const lesson = {
  stage: () => book.writer.get().stage,

  /** Plays 200 strikes a second into a log, which is written down or not, however late the page gets round to it. */
  async play(ms: number, isKept: boolean): Promise<void> {
    const log = isKept ? book.log : new LessonLog();
    if (isKept) book.begin(["bram"]);
    else
      log.begin({
        lessonId: "none",
        studentIds: ["bram"],
        lanes: [{ studentId: "bram", source: "kit" }],
        zone: "UTC",
      });
    const from = performance.now();
    const all = ms / STRIKE_EVERY_MS;
    let played = 0;
    await new Promise<void>((done) => {
      const timer = setInterval(() => {
        const due = Math.min(all, Math.floor((performance.now() - from) / STRIKE_EVERY_MS));
        log.addHits(strikes(due - played));
        played = due;
        if (played < all) return;
        clearInterval(timer);
        done();
      }, HANDED_EVERY_MS);
    });
    await book.writer.write();
  },

  /** How many strikes of the lesson are in the database. */
  async kept(): Promise<number> {
    const { events } = await readLesson(database, book.log.get().began?.lessonId ?? "");
    return events.filter(({ kind }) => kind === "hit").length;
  },

  begin(count: number): string {
    book.begin(["bram"]);
    book.log.addHits(strikes(count));
    return book.log.get().began?.lessonId ?? "";
  },
  strike: (count: number) => book.log.addHits(strikes(count)),
  follow: (lessonId: string) => follower.follow(lessonId),
  followed: () => follower.get().lesson.hitCount,
};

export type WritingPage = typeof lesson;
Object.assign(globalThis, { lesson });
