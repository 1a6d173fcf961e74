/**
 * A page with a studio of any size in its database, made by rule, that times what the program asks of it. Driven from
 * `studio.test.ts`.
 */
import { nextTimeList } from "../../../engine/memory/index.ts";
import type { Student } from "../../../engine/records/index.ts";
import { type HitEvent, lessonIdAt, lessonRecord, packHits, rowsOf } from "../../../engine/records/index.ts";
import {
  instantAfter,
  itemId,
  type LessonState,
  lessonState,
  type SessionEvent,
} from "../../../engine/session/index.ts";
import {
  backUp,
  groupsOf,
  latestLessons,
  lessonsOfStudent,
  readLesson,
  resultsOfStudent,
  StudioDatabase,
  studentsOf,
  takesOfLesson,
  takesOfStudent,
} from "../../../renderer/store/index.ts";

/** How large a studio is. */
export interface Size {
  readonly students: number;
  readonly lessons: number;
  readonly hitsPerLesson: number;
}

const TAKES = 8;
const FIRST = "2016-01-04T08:00:00.000Z";
/** Half an hour a lesson, sixteen a day: one after the other. */
const LESSON_SECONDS = 1800;
const LESSONS_A_DAY = 16;
const DAY_SECONDS = 86_400;
const STYLES = 40;
const CHUNK = 4096;
const LESSONS_AT_ONCE = 50;
const LONG_SECONDS = 3600;

let database: StudioDatabase;

function studentId(index: number): string {
  return `student${index}`;
}

function eventsOf(lesson: number, size: Size): readonly SessionEvent[] {
  const student = studentId(lesson % size.students);
  const days = Math.floor(lesson / LESSONS_A_DAY);
  const at = instantAfter(FIRST, days * DAY_SECONDS + (lesson % LESSONS_A_DAY) * LESSON_SECONDS);
  return lessonOf(lessonIdAt(at, `n${lesson}`), at, student, size.hitsPerLesson, LESSON_SECONDS, lesson);
}

/** A lesson of one round with eight takes; the same strikes in each, in other styles. */
function lessonOf(
  lessonId: string,
  at: string,
  student: string,
  hits: number,
  seconds: number,
  number: number,
): readonly SessionEvent[] {
  const events: SessionEvent[] = [];
  const add = (time: number, event: Record<string, unknown> & { readonly kind: string }) =>
    events.push({ seq: events.length + 1, time, lane: 0, ...event } as SessionEvent);
  const lanes = [{ studentId: student, source: "kit" }];
  add(0, { kind: "lesson-began", lessonId, at, zone: "Europe/Vienna", studentIds: [student], lanes });
  const roundId = `r${number}`;
  add(1, { kind: "round-began", roundId, round: "call-a-style", studentIds: [student] });
  const each = Math.floor(hits / TAKES);
  for (let take = 0; take < TAKES; take += 1) {
    const from = 2 + (take * (seconds - 10)) / TAKES;
    const length = ((seconds - 10) / TAKES) * 0.9;
    const takeId = `t${number}-${take}`;
    const style = { id: `style${(number + take) % STYLES}`, name: `Style ${(number + take) % STYLES}` };
    add(from, { kind: "take-began", roundId, takeId, studentId: student, called: style, click: null, from });
    for (let hit = 0; hit < each; hit += 1) {
      const time = Math.round((from + (length * hit) / each) * 1e6) / 1e6;
      const voice = hit % 4 === 0 ? "snare" : hit % 4 === 2 ? "kick" : "hi-hat-closed";
      add(time, { kind: "hit", hit: { time, voice, zone: "head", velocity: (hit % 100) / 127, pad: 38 } });
    }
    add(from + length, { kind: "take-ended", takeId });
    const figures = { leanMs: (number % 30) - 15, spreadMs: 20 + (take % 7) };
    const beats = [1, 2, 3, 4].map((beat) => ({ beat, count: 16, ...figures }));
    const voices = (["kick", "snare", "hi-hat-closed"] as const).map((voice) => ({
      voice,
      written: 32,
      asWritten: 30,
      otherSound: 1,
      leftOut: 1,
      added: 0,
      ...figures,
    }));
    const summary = {
      level: "steady",
      takeId,
      lessonId,
      roundId,
      studentId: student,
      at: instantAfter(at, from),
      round: "call-a-style",
      fromSeconds: from,
      seconds: length,
      hitCount: each,
      called: style,
      groove: style,
      heard: { ...style, confidence: 0.9 },
      clicked: false,
      tempoBpm: 92,
      driftPercent: 0.4,
      swingRatio: null,
      voiceAccuracy: 0.97,
      workOn: { kind: "beat-wanders", words: "The snare on four wanders. Work on that one." },
      beats,
      voices,
      ...figures,
    };
    add(from + length + 1, { kind: "judgement", summary, comparedGrid: "metre: 4/4\nkick | x...x... |" });
  }
  const tally = Array.from({ length: TAKES }, (_, take) => ({
    item: itemId("style", `style${(number + take) % STYLES}`),
    outcome: (number + take) % 5 === 0 ? "slipped" : "known",
    studentId: student,
    at: instantAfter(at, seconds - 2),
    evidence: { words: "30 in 32 strokes as written.", roundId, takeId: `t${number}-${take}` },
  }));
  add(seconds - 2, { kind: "round-ended", roundId, tally });
  add(seconds, { kind: "lesson-ended", at: instantAfter(at, seconds) });
  return events;
}

/** Puts lessons in, with strikes in the rows a lesson has after it ended. */
async function put(lessons: readonly (readonly SessionEvent[])[]): Promise<void> {
  const { events, hits, takes, results, lessons: records } = database;
  await database.transaction("rw", [events, hits, takes, results, records], async () => {
    for (const each of lessons) {
      const record = lessonRecord(lessonState(each));
      if (!record) throw new Error("A lesson has not begun.");
      const strikes = each.filter((event): event is HitEvent => event.kind === "hit");
      const rows = rowsOf(
        record.id,
        record.day,
        each.filter(({ kind }) => kind !== "hit"),
      );
      const chunks = Array.from({ length: Math.ceil(strikes.length / CHUNK) }, (_, chunk) =>
        packHits(record.id, strikes.slice(chunk * CHUNK, (chunk + 1) * CHUNK)),
      );
      await Promise.all([
        events.bulkAdd(rows.events),
        hits.bulkAdd(chunks),
        takes.bulkAdd(rows.takes),
        results.bulkAdd(rows.results),
        records.add(record),
      ]);
    }
  });
}

/** A lesson of an hour, ten strikes a second. */
const LONG_ID = lessonIdAt("2030-01-07T15:00:00.000Z", "long");

const studio = {
  /** Fills a database with a studio. Lessons `from` to `to` of it, so that the driver can tell how it goes. */
  async fill(name: string, size: Size, from: number, to: number): Promise<void> {
    database = new StudioDatabase(name);
    if (from === 0) {
      const students = Array.from(
        { length: size.students },
        (_, index): Student => ({
          version: 1,
          id: studentId(index),
          nickname: `Student ${index}`,
          level: "steady",
          hand: "right",
          notes: "",
          archived: false,
          addedAt: FIRST,
        }),
      );
      await database.students.bulkAdd(students);
      const at = "2030-01-07T15:00:00.000Z";
      await put([lessonOf(LONG_ID, at, studentId(0), 10 * LONG_SECONDS, LONG_SECONDS, 9_999_999)]);
    }
    for (let lesson = from; lesson < to; lesson += LESSONS_AT_ONCE) {
      const some = Array.from({ length: Math.min(LESSONS_AT_ONCE, to - lesson) }, (_, index) =>
        eventsOf(lesson + index, size),
      );
      await put(some);
    }
  },

  open(name: string): void {
    database = new StudioDatabase(name);
  },

  close(): void {
    database.close();
  },

  /** Milliseconds of each question, asked of the student and the lesson of a number. */
  async ask(size: Size, number: number): Promise<Readonly<Record<string, number>>> {
    const id = studentId(number % size.students);
    const [some] = await lessonsOfStudent(database, id, 1);
    const middle = (await lessonsOfStudent(database, id))[Math.floor(size.lessons / size.students / 2)];
    const figures: Record<string, number> = {};
    const timed = async <Value>(what: string, work: () => Promise<Value>): Promise<Value> => {
      const from = performance.now();
      const value = await work();
      figures[what] = performance.now() - from;
      return value;
    };
    await timed("Roster", async () => {
      const [students] = await Promise.all([studentsOf(database), groupsOf(database)]);
      const latest = await latestLessons(
        database,
        students.map((student) => student.id),
      );
      if (latest.size !== size.students) throw new Error(`${latest.size} students have a latest lesson.`);
    });
    await timed("a student's history", async () => {
      const [lessons, takes] = await Promise.all([
        lessonsOfStudent(database, id, 60),
        takesOfStudent(database, id, 120),
      ]);
      if (lessons.length === 0 || takes.length === 0) throw new Error("There is no history.");
    });
    await timed("a student's whole history", () =>
      Promise.all([lessonsOfStudent(database, id), takesOfStudent(database, id)]),
    );
    await timed("Replay of any lesson", async () => {
      const lessonId = (middle ?? some)?.id ?? "";
      const [{ events }] = await Promise.all([
        readLesson(database, lessonId),
        takesOfLesson(database, lessonId),
      ]);
      if (lessonState(events).hitCount < size.hitsPerLesson * 0.9) throw new Error("Strikes are missing.");
    });
    const long = await timed("Replay of an hour", () => readLesson(database, LONG_ID));
    await timed("any moment of an hour", async () => {
      const at = (number * 997) % LONG_SECONDS;
      const state: LessonState = lessonState(
        long.events.slice(
          0,
          long.events.findIndex(({ time }) => time > at),
        ),
      );
      if (!state.began) throw new Error("The hour has not begun.");
    });
    await timed("Next Time", async () => {
      const results = await resultsOfStudent(database, id);
      const list = nextTimeList({ results, lessonDay: "2026-12-01" });
      if (list.refresh.length + list.new.length === 0) throw new Error("The list is empty.");
    });
    return figures;
  },

  /** Backs up, keeping nothing. Gives bytes, milliseconds, and how it went on: `isSteady` when it was never told to go back. */
  async backUp(): Promise<{
    readonly bytes: number;
    readonly ms: number;
    readonly rows: number;
    readonly of: number;
    readonly isSteady: boolean;
  }> {
    const from = performance.now();
    let bytes = 0;
    let told = { rows: 0, of: 0 };
    let isSteady = true;
    const onProgress = (progress: { readonly rows: number; readonly of: number }) => {
      if (progress.rows < told.rows) isSteady = false;
      told = progress;
    };
    for await (const block of backUp(database, { madeAt: FIRST, program: "bench", onProgress }))
      bytes += block.length;
    return { bytes, ms: performance.now() - from, ...told, isSteady };
  },

  /** Begins a backup and cancels it when rows are done. Gives how many, and how long it took to end. */
  async cancelBackUp(): Promise<{ readonly rows: number; readonly ms: number }> {
    const stop = new AbortController();
    let rows = 0;
    let stoppedAt = 0;
    const onProgress = (progress: { readonly rows: number }) => {
      rows = progress.rows;
      if (rows === 0 || stop.signal.aborted) return;
      stoppedAt = performance.now();
      stop.abort();
    };
    try {
      const made = backUp(database, { madeAt: FIRST, program: "bench", signal: stop.signal, onProgress });
      for await (const _ of made);
    } catch (error) {
      if (!stop.signal.aborted) throw error;
      return { rows, ms: performance.now() - stoppedAt };
    }
    throw new Error("A backup that was cancelled went on to its end.");
  },
};

export type StudioPage = typeof studio;
Object.assign(globalThis, { studio });
