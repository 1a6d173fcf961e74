import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  Bucket,
  InOrder,
  isRoomName,
  MOST_HITS_AT_ONCE,
  MOST_MESSAGE_BYTES,
  madeCode,
  namesShown,
  plainCode,
  RoomTopics,
  readMessage,
  SentHits,
  writeMessage,
} from "../../../engine/rooms/index.ts";

const hit = {
  time: 12_345.678_901,
  voice: "hi-hat-closed",
  zone: "edge",
  velocity: 0.7874,
  openness: 0.1,
  pad: 42,
} as const;

describe("in order", () => {
  test("whatever comes, each comes out once and in order (law)", () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.nat(60), fc.integer({ min: 1, max: 9 })), { maxLength: 60 }),
        (spans) => {
          const stream = new InOrder<number>(0);
          const out = spans.flatMap(([from, count]) =>
            stream.take(
              from,
              Array.from({ length: count }, (_, at) => from + at),
            ),
          );
          expect(out).toEqual(out.map((_, at) => at));
          expect(stream.isWhole).toBe(stream.missing.length === 0);
          expect(stream.missing[0]?.from ?? out.length).toBe(out.length);
        },
      ),
    );
  });

  test("what is missing is known, and can be given up", () => {
    const stream = new InOrder<string>(0);
    expect(stream.take(0, ["a"])).toEqual(["a"]);
    expect(stream.take(3, ["d"])).toEqual([]);
    expect(stream.missing).toEqual([{ from: 1, upTo: 3 }]);
    expect(stream.take(3, ["d"])).toEqual([]);
    expect(stream.doubled).toBe(1);
    expect(stream.giveUp(3)).toEqual(["d"]);
    expect(stream.lost).toBe(2);
    expect(stream.missing).toEqual([]);
    stream.standing(6);
    expect(stream.missing).toEqual([{ from: 4, upTo: 6 }]);
  });

  test("a number beyond all reason costs neither time nor memory", () => {
    const stream = new InOrder<string>(0);
    stream.standing(Number.MAX_SAFE_INTEGER);
    expect(stream.giveUp(Number.MAX_SAFE_INTEGER)).toEqual([]);
    for (let at = 0; at < 10_000; at += 1) stream.take(2 * at, ["far"]);
    expect(stream.lost).toBe(Number.MAX_SAFE_INTEGER);
  });
});

describe("strikes sent", () => {
  test("the first goes at once, those that follow closely go together", () => {
    const sent = new SentHits();
    sent.add([hit]);
    expect(sent.due(0)).toHaveLength(1);
    sent.add([hit, hit]);
    expect(sent.due(0.005)).toEqual([]);
    sent.add([hit]);
    expect(sent.due(0.021)).toEqual([{ kind: "hits", from: 1, hits: [hit, hit, hit] }]);
    expect(sent.isWaiting).toBe(false);
  });

  test("a full batch is far smaller than the largest message", () => {
    const sent = new SentHits();
    sent.add(Array.from({ length: 3 * MOST_HITS_AT_ONCE }, () => hit));
    const texts = sent.due(0).map(writeMessage);
    expect(texts).toHaveLength(3);
    for (const text of texts) expect(text.length).toBeLessThan(MOST_MESSAGE_BYTES / 2);
  });

  test("only so many are kept", () => {
    const sent = new SentHits();
    for (let time = 0; time < 40; time += 1) sent.add(Array.from({ length: 1000 }, () => hit));
    expect(sent.sequence).toBe(40_000);
    expect(sent.firstKept).toBeGreaterThan(0);
    expect(sent.between(0, sent.firstKept)).toEqual([]);
  });
});

describe("messages", () => {
  test("come back as they were written", () => {
    const message = { kind: "hits", from: 3, hits: [hit] } as const;
    expect(readMessage(writeMessage(message))).toEqual({ read: "message", message });
  });

  const hits = (change: object) =>
    JSON.stringify({ version: 1, kind: "hits", from: 0, hits: [{ ...hit, ...change }] });
  test.each([
    ["", "it is no message of a room"],
    ["[]", "it is no message of a room"],
    ["{}", "it is no message of a room"],
    [`{"version":1,"kind":"shout"}`, "kind"],
    [hits({ velocity: 2 }), "velocity"],
    [hits({ voice: "gong" }), "voice"],
    [hits({ time: null }), "time"],
    [JSON.stringify({ version: 1, kind: "hits", from: 0, hits: [] }), "hits"],
    [
      JSON.stringify({ version: 1, kind: "hits", from: 0, hits: Array.from({ length: 201 }, () => hit) }),
      "hits",
    ],
    ["x".repeat(10 * 1024 * 1024), "it is longer than 64 kB"],
  ])("%# is put aside with the reason", (text, reason) => {
    const read = readMessage(text);
    expect(read.read).toBe("not understood");
    expect("reason" in read && read.reason).toContain(reason);
  });

  test("nothing that comes makes it fail (law)", () => {
    fc.assert(fc.property(fc.oneof(fc.string(), fc.json()), (text) => void readMessage(text)));
  });
});

describe("topics", () => {
  const topics = new RoomTopics("Millrace");
  test.each([
    ["throneside/Millrace/hits/noor-0001", true],
    ["throneside/Millrace/here/noor-0001", true],
    ["throneside/Millrace/to/bram-0002", true],
    ["throneside/Millrace/all", true],
    ["throneside/Millrace/hits/bram-0002", false],
    ["throneside/Millrace/hits/noor-0001/more", false],
    ["throneside/Millrace/other/noor-0001", false],
    ["throneside/Other/all", false],
    ["$SYS/broker", false],
  ])("sending to %s: %s", (topic, may) => expect(topics.maySend("noor-0001", topic)).toBe(may));

  test.each([
    ["throneside/Millrace/hits/+", true],
    ["throneside/Millrace/heard/+", true],
    ["throneside/Millrace/hits/bram-0002", true],
    ["throneside/Millrace/to/noor-0001", true],
    ["throneside/Millrace/to/bram-0002", false],
    ["throneside/Millrace/to/+", false],
    ["throneside/Millrace/#", false],
    ["throneside/+/all", false],
    ["#", false],
  ])("hearing %s: %s", (filter, may) => expect(topics.mayHear("noor-0001", filter)).toBe(may));

  test.each([
    ["Millrace", true],
    ["Room 2", true],
    ["Übung", true],
    ["", false],
    ["a/b", false],
    ["a+", false],
    ["#", false],
    ["$SYS", false],
    ["x".repeat(41), false],
  ])("%j names a room: %s", (name, may) => {
    expect(isRoomName(name)).toBe(may);
    if (!may) expect(() => new RoomTopics(name)).toThrow(RangeError);
  });
});

test("people of one name are numbered, whatever the case", () => {
  expect(namesShown(["Noor", "Bram", "noor", "NOOR"])).toEqual(["Noor", "Bram", "noor (2)", "NOOR (3)"]);
});

test("a code reads as it is typed, with or without strokes", () => {
  const code = madeCode((most) => most - 1);
  expect(code).toBe("ZZZZ-ZZZZ-ZZZZ");
  expect(plainCode(" zzzz zzzz-ZZZZ ")).toBe(plainCode(code));
});

describe("a flood", () => {
  test("a steady rate passes, a rush does to a limit, and it passes again later", () => {
    const bucket = new Bucket({ perSecond: 10, atOnce: 20 });
    for (let at = 0; at < 100; at += 1) expect(bucket.take(1, at / 10)).toBe(true);
    const rush = Array.from({ length: 30 }, () => bucket.take(1, 12));
    expect(rush.filter(Boolean)).toHaveLength(20);
    expect(bucket.take(1, 20)).toBe(true);
  });
});
