/** A small studio in a database of memory, for tests: two students, a lesson of each and one of both. */
import { Dexie } from "dexie";
import { IDBFactory, IDBKeyRange } from "fake-indexeddb";
import type { Hit } from "../../../../engine/kit/index.ts";
import type { Student } from "../../../../engine/records/index.ts";
import { lessonState, type SessionEvent, type TakeSummary } from "../../../../engine/session/index.ts";
import { StudioDatabase, writeEvents } from "../../../../renderer/store/index.ts";

export function newDatabase(): StudioDatabase {
  const indexedDB = new IDBFactory();
  // Live queries ask nothing where the platform has no database of its own.
  Dexie.dependencies.indexedDB = indexedDB;
  return new StudioDatabase("studio", { indexedDB, IDBKeyRange });
}

export function student(id: string, nickname: string, change: Partial<Student> = {}): Student {
  return {
    version: 1,
    id,
    nickname,
    level: "first-year",
    hand: "right",
    notes: "",
    archived: false,
    addedAt: "2026-01-01T10:00:00.000Z",
    ...change,
  };
}

export const OTTILIE = student("id-ottilie", "Ottilie", { notes: "Sits beside Bram." });
export const BRAM = student("id-bram", "Bram", {
  notes: "Louder than Ottilie.",
  consent: { by: "Ottilie's uncle", on: "2026-01-02" },
});

export function hit(time: number, voice: Hit["voice"] = "snare"): Hit {
  return { time, voice, zone: "head", velocity: 100 / 127, pad: 38 };
}

/** A lesson of some students, each on a lane of their own: a take, its judgement, a result, a remark. */
export function lessonOf(
  lessonId: string,
  at: string,
  ids: readonly string[],
  remark: string,
): SessionEvent[] {
  const events: SessionEvent[] = [];
  type Bare = SessionEvent extends infer Event
    ? Event extends SessionEvent
      ? Omit<Event, "seq" | "time">
      : never
    : never;
  const add = (time: number, event: Bare): void => {
    events.push({ ...event, seq: events.length + 1, time } as SessionEvent);
  };
  const lanes = ids.map((studentId) => ({ studentId, source: "kit" as const }));
  add(0, { kind: "lesson-began", lane: 0, lessonId, at, zone: "Europe/Vienna", studentIds: ids, lanes });
  ids.forEach((studentId, lane) => {
    const roundId = `${lessonId}/round-${lane}`;
    const takeId = `${lessonId}/take-${lane}`;
    const from = 10 + lane * 100;
    add(from, { kind: "round-began", lane, roundId, round: "call-a-style", studentIds: [studentId] });
    const called = { id: "own/1", name: "Ottilie's groove" };
    add(from, { kind: "take-began", lane, roundId, takeId, studentId, called, click: null, from });
    for (let stroke = 0; stroke < 8; stroke += 1) {
      const time = from + 1 + stroke / 2;
      add(time, { kind: "hit", lane, hit: hit(time) });
      // Somebody taps on the other kits meanwhile.
      const others = stroke === 3 ? ids.map((_, other) => other).filter((other) => other !== lane) : [];
      for (const other of others) add(time, { kind: "hit", lane: other, hit: hit(time) });
    }
    add(from + 6, { kind: "take-ended", lane, takeId });
    add(from + 7, {
      kind: "judgement",
      lane,
      summary: summary(lessonId, roundId, takeId, studentId, at),
      comparedGrid: null,
    });
    const evidence = { words: "Held.", roundId, takeId };
    const tally = [{ item: "style:shuffle" as const, outcome: "known" as const, studentId, at, evidence }];
    add(from + 8, { kind: "round-ended", lane, roundId, tally });
  });
  add(500, { kind: "remark", lane: 0, remarkId: `${lessonId}/remark`, text: remark, flagged: false });
  add(600, { kind: "lesson-ended", lane: 0, at: at.replace("T15:00", "T15:10") });
  return events;
}

function summary(
  lessonId: string,
  roundId: string,
  takeId: string,
  studentId: string,
  at: string,
): TakeSummary {
  const shuffle = { id: "shuffle", name: "Shuffle" };
  return {
    takeId,
    lessonId,
    roundId,
    studentId,
    at,
    round: "call-a-style",
    fromSeconds: 10,
    seconds: 6,
    hitCount: 8,
    called: { id: "own/1", name: "Ottilie's groove" },
    groove: shuffle,
    heard: { ...shuffle, confidence: 0.95 },
    level: "first-year",
    clicked: false,
    tempoBpm: 104,
    leanMs: null,
    spreadMs: 20,
    driftPercent: 0.5,
    swingRatio: null,
    voiceAccuracy: 1,
    workOn: null,
    beats: [],
    voices: [],
  };
}

export const ALONE = "2026-03-02T15:00:00.000Z~alone";
export const OF_BRAM = "2026-03-03T15:00:00.000Z~bram";
export const SHARED = "2026-03-04T15:00:00.000Z~both";

/** Fills a database: Ottilie is spoken of in every table there is. */
export async function keptStudio(): Promise<StudioDatabase> {
  const database = newDatabase();
  for (const events of [
    lessonOf(ALONE, "2026-03-02T15:00:00.000Z", [OTTILIE.id], "Ottilie sang it first."),
    lessonOf(OF_BRAM, "2026-03-03T15:00:00.000Z", [BRAM.id], "Like Ottilie, but louder."),
    lessonOf(SHARED, "2026-03-04T15:00:00.000Z", [BRAM.id, OTTILIE.id], "Ottilie leads, Bram answers."),
  ])
    await writeEvents(database, lessonState(events), events);
  await database.students.bulkPut([OTTILIE, BRAM]);
  await database.groups.put({
    version: 1,
    id: "g",
    name: "Ottilie and friends",
    studentIds: [OTTILIE.id, BRAM.id],
  });
  for (const { id } of [OTTILIE, BRAM])
    await database.listChanges.put({
      version: 1,
      id: `change-${id}`,
      studentId: id,
      at: "2026-03-05T10:00:00.000Z",
      day: "2026-03-05",
      kind: "added",
      item: `own:${id === BRAM.id ? 2 : 1}`,
      words: "as Ottilie does it",
      section: "new",
    });
  await database.settings.put({ name: "list of last time", value: OTTILIE.id });
  await database.setAside.add({ table: "takes", row: { studentId: OTTILIE.id }, why: "broken" });
  await database.setAside.add({ table: "events", row: { event: { text: "Ottilie!" } }, why: "broken" });
  await database.setAside.add({ table: "events", row: { event: { text: "nobody" } }, why: "broken" });
  await database.entries.put({
    version: 1,
    id: "own/1",
    kind: "groove",
    name: "Ottilie's groove",
    alsoNamed: ["the one of Ottilie"],
    styleId: null,
    metre: { numerator: 4, denominator: 4 },
    level: null,
    tempoBpm: { low: 90, high: 110 },
    bars: 1,
    grid: "groove: own/1\nname: Ottilie's groove\nmetre: 4/4\ntempo: 90-110\nsnare | ..x...x.\n",
    from: { kind: "written" },
    madeAtMs: 0,
    changedAtMs: 0,
    bareNames: ["ottilie's groove", "the one of ottilie"],
  });
  return database;
}

/** All of a database as one text, bytes as letters too: whatever is kept can be found in it. */
export async function allThatIsKept(database: StudioDatabase): Promise<string> {
  const tables = await Promise.all(
    database.tables.map(async (table) => [
      table.name,
      await table.toCollection().primaryKeys(),
      await table.toArray(),
    ]),
  );
  return JSON.stringify(tables, (_, value: unknown) =>
    value instanceof Uint8Array ? new TextDecoder("latin1").decode(value) : value,
  );
}
