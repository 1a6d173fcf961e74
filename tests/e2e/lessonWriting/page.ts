/** A page with the book of lessons, for a test to play in. */
import type { Hit } from "../../../engine/kit/index.ts";
import { LessonBook } from "../../../renderer/session/lessonBook.ts";
import { LessonFollower } from "../../../renderer/session/lessonFollower.ts";
import { LessonLog } from "../../../renderer/session/lessonLog.ts";
import { readLesson, StudioDatabase } from "../../../renderer/store/index.ts";

const STRIKE_EVERY_MS = 5;
const AT_ONCE = 4;

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

  /** Plays 200 strikes a second into a log, which is written down or not. */
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
    await new Promise<void>((done) => {
      const timer = setInterval(() => log.addHits(strikes(AT_ONCE)), STRIKE_EVERY_MS * AT_ONCE);
      setTimeout(() => {
        clearInterval(timer);
        done();
      }, ms);
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
