/**
 * A page that keeps a lesson as the program does, with a kit that plays by itself: 200 strikes a second, a remark every
 * half second, a round that ends every second. When it opens, it first says what is left of the lesson before.
 */
import type { Hit } from "../../../engine/kit/index.ts";
import { lessonState } from "../../../engine/session/index.ts";
import { LessonBook } from "../../../renderer/session/lessonBook.ts";
import { readLesson, StudioDatabase } from "../../../renderer/store/index.ts";

const STRIKE_EVERY_MS = 5;
const LESSONS_TOLD = 3;

/** What the page tells of a lesson that was broken off. */
export interface Found {
  /** How many events are there, and whether they are the first ones without a gap. */
  readonly events: number;
  readonly isWhole: boolean;
  /** When the last of them happened, by the calendar: milliseconds since 1970. */
  readonly lastMs: number;
  readonly setAside: number;
  /** Lessons that had not ended: one, unless nothing had been written yet. */
  readonly open: number;
  /** Whether this page may write: another page of the same profile would hold it, and this one would find nothing. */
  readonly isWriter: boolean;
  readonly trouble: string | null;
}

/** What is there, for whoever has to find out why a lesson is not. */
export interface Evidence {
  /** Tells this page from any other, and how it came to be loaded: `navigate`, `reload`, `back_forward`, `prerender`. */
  readonly page: string;
  readonly loadedBy: string;
  readonly stage: string;
  /** Why the latest is not written. */
  readonly trouble: string | null;
  /** Who holds the writing, and who waits for it: ids of windows. */
  readonly locks: LockManagerSnapshot;
  /** Rows of every table; the last lessons, the settings, and what was set aside. */
  readonly counts: Readonly<Record<string, number>>;
  readonly lessons: readonly unknown[];
  readonly settings: readonly unknown[];
  readonly setAside: readonly unknown[];
  /** Bytes this browser may keep for the page, and those it keeps. */
  readonly storage: StorageEstimate;
}

/** What the page says when it has opened, and when it has begun to play. */
export interface Opened {
  readonly found: Found;
  readonly evidence: Evidence | string;
}
/** The beginning of the lesson has been written, or cannot be. */
export interface Playing {
  readonly page: string;
  readonly lessonId: string;
  readonly stage: string;
  readonly trouble: string | null;
}

const page = crypto.randomUUID().slice(0, 8);
const database = new StudioDatabase("killed");
const book = new LessonBook(database);

async function found(): Promise<Found> {
  const nothing = {
    events: 0,
    isWhole: true,
    lastMs: 0,
    setAside: 0,
    open: 0,
    isWriter: false,
    trouble: null,
  };
  try {
    const broken = await book.open();
    const isWriter = book.writer.get().stage === "writing";
    if (broken.kind === "none") return { ...nothing, isWriter };
    const { events, setAside, newer } = await readLesson(database, broken.lessonId);
    await book.leave(broken.lessonId);
    const isWhole = events.every(({ seq }, index) => seq === index + 1) && newer === 0;
    const beganMs = Date.parse(lessonState(events).began?.at ?? "");
    const last = Math.max(...events.map(({ time }) => time));
    return {
      events: events.length,
      isWhole,
      lastMs: beganMs + last * 1000,
      setAside,
      open: 1,
      isWriter,
      trouble: null,
    };
  } catch (error) {
    return { ...nothing, trouble: String(error) };
  }
}

async function evidence(): Promise<Evidence | string> {
  try {
    const [entry] = performance.getEntriesByType("navigation");
    const counts = await Promise.all(
      database.tables.map(async (table) => [table.name, await table.count()] as const),
    );
    const { stage, trouble } = book.writer.get();
    return {
      page,
      loadedBy: entry instanceof PerformanceNavigationTiming ? entry.type : "not known",
      stage,
      trouble,
      locks: await navigator.locks.query(),
      counts: Object.fromEntries(counts),
      lessons: await database.lessons.orderBy("id").reverse().limit(LESSONS_TOLD).toArray(),
      settings: await database.settings.toArray(),
      setAside: await database.setAside.toArray(),
      storage: await navigator.storage.estimate(),
    };
  } catch (error) {
    return String(error);
  }
}

function strike(index: number, time: number): Hit {
  return {
    time,
    voice: index % 4 === 0 ? "snare" : "hi-hat-closed",
    zone: "head",
    velocity: (index % 128) / 127,
    pad: 38,
  };
}

function play(): void {
  book.begin(["bram"]);
  const from = performance.now();
  let played = 0;
  const due = () => Math.floor((performance.now() - from) / STRIKE_EVERY_MS);
  const timer = new MessageChannel();
  let halves = 0;
  timer.port1.onmessage = () => {
    for (; played < due(); played += 1)
      book.log.addHits([strike(played, (from + played * STRIKE_EVERY_MS) / 1000)]);
    if (played / 100 > halves + 1) {
      halves += 1;
      book.remark(`half second ${halves}`);
      if (halves % 2 === 1) {
        const studentIds = ["bram"];
        book.log.add({ kind: "round-began", roundId: `round${halves}`, round: "call-a-style", studentIds });
      } else book.endRound();
    }
    setTimeout(() => timer.port2.postMessage(null), 1);
  };
  timer.port2.postMessage(null);
}

async function tell(what: string, said: unknown): Promise<void> {
  await fetch(what, { method: "POST", body: JSON.stringify(said) });
}

const opened: Opened = { found: await found(), evidence: await evidence() };
await tell("/found", opened);
if (!location.search.includes("only-look")) {
  play();
  await book.writer.write();
  const { stage, trouble } = book.writer.get();
  const playing: Playing = { page, lessonId: book.log.get().began?.lessonId ?? "", stage, trouble };
  await tell("/playing", playing);
}
