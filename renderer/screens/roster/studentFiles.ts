/**
 * One student as files, in open formats: the archive (which the program can put back), tables (CSV), every take as MIDI, and
 * a page to read. Of lessons with others, only this student's part.
 */
import { strToU8, Zip, ZipDeflate } from "fflate";
import {
  type ArchiveRow,
  archivedHits,
  csv,
  hitsCsv,
  writeArchive,
  writePlayedSmf,
} from "../../../engine/formats/index.ts";
import type { KitMap } from "../../../engine/kit/index.ts";
import { byItem, evidenceOf, evidenceWords, itemName } from "../../../engine/memory/index.ts";
import {
  type LessonRecord,
  lessonRecord,
  rowsOf,
  type StoredResult,
  type StoredTake,
  type Student,
} from "../../../engine/records/index.ts";
import { hitsOfTake, lessonState, localDay, type SessionEvent } from "../../../engine/session/index.ts";
import {
  lessonsOfStudent,
  listChangesOf,
  readLesson,
  resultsOfStudent,
  type StudioDatabase,
  sha256,
  takesOfStudent,
} from "../../store/index.ts";
import { inStudio } from "../next-time/nextTimePlace.ts";
import { readablePage } from "./readablePage.ts";
import { withoutStudent } from "./withoutStudent.ts";

export interface FileOfStudent {
  /** With its folder: "takes/2026-03-02 1, Shuffle.mid". */
  readonly path: string;
  readonly content: Uint8Array;
}

export interface StudentFilesHow {
  /** ISO 8601 in UTC. */
  readonly madeAt: string;
  /** IANA name. */
  readonly zone: string;
  readonly program: string;
  /** Gives the keys of the MIDI files. */
  readonly map: KitMap;
}

/** The files, one after the other; a lesson at a time is in memory. @throws StoreError */
export async function* studentFiles(
  database: StudioDatabase,
  student: Student,
  how: StudentFilesHow,
): AsyncGenerator<FileOfStudent> {
  const [lessons, takes, results, evidence] = await Promise.all([
    lessonsOfStudent(database, student.id),
    takesOfStudent(database, student.id),
    resultsOfStudent(database, student.id),
    inStudio(database).evidenceOf(student),
  ]);
  const today = localDay(how.madeAt, how.zone);
  const known = [...byItem(evidence.results)].map(([item, of]) => {
    const { name, aspect } = itemName(item, evidence.ownNames);
    const found = evidenceOf(of);
    return {
      what: aspect === "" ? name : `${name}, ${aspect}`,
      how: found ? evidenceWords(found, today) : "",
    };
  });
  yield text("read me.html", readablePage({ student, lessons, takes, known, madeOn: today }));
  yield text("lessons.csv", lessonsCsv(lessons));
  yield text("takes.csv", takesCsv(takes));
  yield text("results.csv", resultsCsv(results));
  const archive: Uint8Array[] = [];
  const about = {
    madeAt: how.madeAt,
    program: how.program,
    of: { kind: "students" as const, studentIds: [student.id] },
  };
  for await (const piece of writeArchive(about, archiveRows(database, student, lessons), sha256))
    archive.push(piece);
  yield { path: `${plain(student.nickname)}.throneside.jsonl`, content: joined(archive) };
  for (const { id, day } of lessons) {
    const events = await ownEvents(database, id, student.id);
    const hits = events.flatMap((event) => (event.kind === "hit" ? [event.hit] : []));
    yield text(`strikes/${day} ${plain(id.slice(-8))}.csv`, hitsCsv(hits));
    yield* midiFiles(events, day, id, how.map);
  }
}

function* midiFiles(
  events: readonly SessionEvent[],
  day: string,
  lessonId: string,
  map: KitMap,
): Generator<FileOfStudent> {
  const takes = lessonState(events).rounds.flatMap((round) => round.takes);
  for (const [index, take] of takes.entries()) {
    const hits = hitsOfTake(events, take);
    if (hits.length === 0) continue;
    const name = take.judgement?.summary.groove?.name ?? take.called?.name ?? "Free choice";
    yield {
      path: `takes/${day} ${plain(lessonId.slice(-8))} ${index + 1}, ${plain(name)}.mid`,
      content: writePlayedSmf(name, hits, { played: null, map }),
    };
  }
}

/** What the student played in a lesson, and what was said of it. */
async function ownEvents(
  database: StudioDatabase,
  lessonId: string,
  studentId: string,
): Promise<readonly SessionEvent[]> {
  const { events } = await readLesson(database, lessonId);
  const began = events.find((event) => event.kind === "lesson-began");
  const others = (began?.studentIds ?? []).filter((id) => id !== studentId);
  return others.reduce((left, other) => withoutStudent(left, other), events);
}

async function* archiveRows(
  database: StudioDatabase,
  student: Student,
  lessons: readonly LessonRecord[],
): AsyncGenerator<ArchiveRow> {
  yield { table: "students", row: student };
  for (const { id } of lessons) {
    const events = await ownEvents(database, id, student.id);
    const state = lessonState(events);
    const record = lessonRecord(state);
    if (!record || !state.began) continue;
    const rows = rowsOf(id, record.day, events);
    yield { table: "lessons", row: record };
    for (const row of rows.events) yield { table: "events", row };
    for (const chunk of rows.hits) yield { table: "hits", row: archivedHits(chunk) };
    for (const row of rows.takes) yield { table: "takes", row };
    for (const row of rows.results) yield { table: "results", row };
  }
  for (const row of await listChangesOf(database, student.id)) yield { table: "listChanges", row };
}

function lessonsCsv(lessons: readonly LessonRecord[]): string {
  return csv(
    ["day", "began", "zone", "seconds", "rounds", "takes", "strikes", "flags"],
    lessons.map(({ day, at, zone, seconds, rounds, takes, hits, flags }) => [
      day,
      at,
      zone,
      seconds,
      rounds,
      takes,
      hits,
      flags,
    ]),
  );
}

function takesCsv(takes: readonly StoredTake[]): string {
  return csv(
    [
      "day",
      "at",
      "called",
      "compared with",
      "heard",
      "level",
      "tempo",
      "lean ms",
      "spread ms",
      "right sounds",
      "drift in 100",
      "work on",
    ],
    takes.map((take) => [
      take.day,
      take.at,
      take.called?.name ?? null,
      take.groove?.name ?? null,
      take.heard?.name ?? null,
      take.level,
      take.tempoBpm,
      take.leanMs,
      take.spreadMs,
      take.voiceAccuracy,
      take.driftPercent,
      take.workOn?.words ?? null,
    ]),
  );
}

function resultsCsv(results: readonly StoredResult[]): string {
  return csv(
    ["day", "at", "item", "outcome", "evidence"],
    results.map(({ day, at, item, outcome, evidence }) => [day, at, item, outcome, evidence.words]),
  );
}

/** The files as one zip (PKWARE APPNOTE 6.3), made piece by piece. */
export async function zipOf(files: AsyncIterable<FileOfStudent>, madeAt: string): Promise<Blob> {
  const pieces: Uint8Array<ArrayBuffer>[] = [];
  let trouble: Error | null = null;
  const zip = new Zip((error, piece) => {
    if (error) trouble = error;
    else pieces.push(new Uint8Array(piece));
  });
  const mtime = new Date(madeAt);
  for await (const { path, content } of files) {
    const file = new ZipDeflate(path, { level: 6 });
    file.mtime = mtime;
    zip.add(file);
    file.push(content, true);
    if (trouble) throw trouble;
  }
  zip.end();
  if (trouble) throw trouble;
  return new Blob(pieces, { type: "application/zip" });
}

function text(path: string, content: string): FileOfStudent {
  return { path, content: strToU8(content) };
}

/** Letters that every system takes in a name. */
export function plain(name: string): string {
  const letters = name
    .replace(/[<>:"/\\|?*\p{Cc}\p{Cf}]+/gu, " ")
    .trim()
    .slice(0, 60);
  return letters.replace(/^[. ]+|[. ]+$/g, "") || "student";
}

function joined(pieces: readonly Uint8Array[]): Uint8Array {
  const whole = new Uint8Array(pieces.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const piece of pieces) {
    whole.set(piece, at);
    at += piece.length;
  }
  return whole;
}
