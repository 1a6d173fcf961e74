import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  type HitEvent,
  hitChunkSchema,
  hitCount,
  lessonRecord,
  lessonSchema,
  packHits,
  readRow,
  rowsOf,
  stepsOf,
  storedEventSchema,
  storedResultSchema,
  storedTakeSchema,
  unpackHits,
} from "../../../engine/records/index.ts";
import { lessonState, NEW_LESSON, type SessionEvent } from "../../../engine/session/index.ts";
import { anyLesson } from "../session/lessons.ts";

const LESSON = "2026-03-02T15:30:00.000Z~a1";
const DAY = "2026-03-02";

/** The log as it is kept in batches, and read again. */
function keptAndRead(events: readonly SessionEvent[], sizes: readonly number[]): readonly SessionEvent[] {
  const read: SessionEvent[] = [];
  let from = 0;
  for (let batch = 0; from < events.length; batch += 1) {
    const size = sizes[batch % sizes.length] ?? 1;
    const rows = rowsOf(LESSON, DAY, events.slice(from, from + size));
    from += size;
    read.push(...rows.events.map((row) => storedEventSchema.parse(JSON.parse(JSON.stringify(row))).event));
    read.push(...rows.hits.flatMap((row) => unpackHits(hitChunkSchema.parse(structuredClone(row)))));
  }
  return read.sort((a, b) => a.seq - b.seq);
}

test("state(live) is state(replay) at each event, however the log was cut when it was kept", () => {
  const sizes = fc.array(fc.integer({ min: 1, max: 30 }), { minLength: 1, maxLength: 5 });
  fc.assert(
    fc.property(anyLesson, sizes, (events, cut) => {
      const replayed = keptAndRead(events, cut);
      expect(replayed).toEqual(events);
      let live = NEW_LESSON;
      let replay = NEW_LESSON;
      events.forEach((event, index) => {
        live = lessonState([event], live);
        replay = lessonState(replayed.slice(index, index + 1), replay);
        expect(replay).toEqual(live);
      });
    }),
    { numRuns: 60 },
  );
});

test("what lists ask for comes out of the events: takes, results, the lesson", () => {
  fc.assert(
    fc.property(anyLesson, (events) => {
      const rows = rowsOf(LESSON, DAY, events);
      for (const take of rows.takes) expect(storedTakeSchema.parse(take)).toEqual(take);
      for (const result of rows.results) expect(storedResultSchema.parse(result)).toEqual(result);
      const tallied = events.flatMap((event) => (event.kind === "round-ended" ? event.tally : []));
      expect(rows.results).toHaveLength(tallied.length);
      const record = lessonRecord(lessonState(events));
      expect(lessonSchema.parse(record)).toMatchObject({ id: LESSON, day: DAY });
      expect(record?.hits).toBe(events.filter(({ kind }) => kind === "hit").length);
    }),
    { numRuns: 40 },
  );
});

describe("chunks of strikes", () => {
  const strike = (velocity: number): HitEvent => ({
    kind: "hit",
    seq: 7,
    time: 1.25,
    lane: 1,
    hit: { time: 1.25, voice: "kick", zone: "head", velocity, pad: 36 },
  });

  test("a strike of MIDI takes 18 bytes, one of another strength 32", () => {
    expect(packHits(LESSON, [strike(100 / 127)]).bytes).toHaveLength(18);
    expect(packHits(LESSON, [strike(0.123)]).bytes).toHaveLength(32);
    expect(hitCount(packHits(LESSON, [strike(1), strike(0)]))).toBe(2);
  });

  test.each([
    ["half a strike", (bytes: Uint8Array<ArrayBuffer>) => bytes.slice(0, 10)],
    ["none", () => new Uint8Array()],
    ["text", () => "none"],
  ])("%s in place of the bytes is no chunk", (_, change) => {
    const chunk = packHits(LESSON, [strike(1)]);
    expect(readRow(hitChunkSchema, { ...chunk, bytes: change(chunk.bytes) }, stepsOf("hits")).kind).toBe(
      "broken",
    );
  });

  test.each([
    ["a voice that is not listed", 13, 9],
    ["a pad that no MIDI has", 15, 200],
    ["no strength", 16, 255],
  ])("%s is refused", (_, at, value) => {
    const chunk = packHits(LESSON, [strike(1)]);
    chunk.bytes[at] = value;
    expect(() => unpackHits(chunk)).toThrow("Strike 1 in a row of lesson");
  });

  test("no strikes make no chunk", () => {
    expect(() => packHits(LESSON, [])).toThrow(RangeError);
  });
});

describe("rows", () => {
  const [event] = rowsOf(LESSON, DAY, [
    { kind: "command", seq: 3, time: 1, lane: 0, command: "flag", by: "key" },
  ]).events;

  test.each([
    ["as written", {}, "read"],
    ["of a newer version", { version: 4, event: { kind: "yet unknown" } }, "newer"],
    ["of no version", { version: "1" }, "broken"],
    ["whose number is not its event's", { seq: 4 }, "broken"],
    ["with an unknown kind of event", { event: { kind: "yet unknown" } }, "broken"],
  ])("a row %s is %s", (_, change, kind) => {
    expect(readRow(storedEventSchema, { ...event, ...change }, stepsOf("events")).kind).toBe(kind);
  });
});
