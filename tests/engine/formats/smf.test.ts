import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { readSmf, SmfError } from "../../../engine/formats/index.ts";
import {
  chunk,
  END_OF_TRACK,
  file,
  header,
  strike,
  tempo,
  timeSignature,
  track,
  variableLength,
} from "./smfBytes.ts";

function strikes(bytes: Uint8Array) {
  return readSmf(bytes).events.flatMap(({ time, message }) =>
    message.kind === "note-on" ? [{ time, note: message.note, velocity: message.velocity }] : [],
  );
}

describe("what a file holds", () => {
  test("every message that means something to a kit, in order, with its channel", () => {
    const bytes = file(
      header(0, 1, 480),
      track(
        [0, 0x99, 38, 100],
        [...variableLength(240), 0x89, 38, 64],
        [0, 0x99, 36, 0],
        [0, 0xb3, 4, 90],
        [0, 0xa9, 49, 127],
        [0, 0xc9, 5],
        [0, 0xd9, 60],
        [0, 0xe9, 0, 64],
        [0, 0xf0, 3, 1, 2, 0xf7],
        [0, 0xff, 0x01, 2, 65, 66],
      ),
    );
    const { format, events, tempos, metres } = readSmf(bytes);
    expect(format).toBe(0);
    expect(events).toEqual([
      { time: 0, message: { kind: "note-on", channel: 9, note: 38, velocity: 100 } },
      { time: 0.25, message: { kind: "note-off", channel: 9, note: 38 } },
      { time: 0.25, message: { kind: "note-off", channel: 9, note: 36 } },
      { time: 0.25, message: { kind: "control", channel: 3, controller: 4, value: 90 } },
      { time: 0.25, message: { kind: "key-pressure", channel: 9, note: 49, pressure: 127 } },
    ]);
    // RP-001: without a tempo it is 120, without a time signature 4/4.
    expect(tempos).toEqual([{ time: 0, tempoBpm: 120 }]);
    expect(metres).toEqual([{ time: 0, metre: { numerator: 4, denominator: 4 } }]);
  });

  test("running status, with a release by velocity 0 in it", () => {
    const bytes = file(
      header(0, 1, 480),
      track([0, 0x99, 38, 100], [120, 38, 0], [120, 36, 80], [0, 42, 70]),
    );
    expect(strikes(bytes)).toEqual([
      { time: 0, note: 38, velocity: 100 },
      { time: 0.25, note: 36, velocity: 80 },
      { time: 0.25, note: 42, velocity: 70 },
    ]);
  });

  test("tracks are laid together, at one moment in their own order", () => {
    const bytes = file(
      header(1, 3, 480),
      track(tempo(0, 500_000)),
      track(strike(480, 36), strike(480, 37)),
      track(strike(240, 38), strike(240, 39), strike(720, 40)),
    );
    expect(strikes(bytes).map(({ time, note }) => [time, note])).toEqual([
      [0.25, 38],
      [0.5, 36],
      [0.5, 39],
      [1, 37],
      [1.25, 40],
    ]);
  });

  test("a tempo in one track moves the strikes of all, from its moment on", () => {
    const bytes = file(
      header(1, 2, 480),
      track(tempo(0, 500_000), tempo(960, 1_000_000), tempo(480, 250_000)),
      track(strike(480, 36), strike(480, 37), strike(480, 38), strike(480, 39)),
    );
    expect(strikes(bytes).map(({ time }) => time)).toEqual([0.5, 1, 2, 2.25]);
    expect(readSmf(bytes).tempos).toEqual([
      { time: 0, tempoBpm: 120 },
      { time: 1, tempoBpm: 60 },
      { time: 2, tempoBpm: 240 },
    ]);
  });

  test("a first tempo or metre later than time 0 leaves the default before it", () => {
    const { tempos, metres } = readSmf(
      file(header(0, 1, 480), track(tempo(480, 1_000_000), timeSignature(480, 7, 3), strike(0, 36))),
    );
    expect(tempos).toEqual([
      { time: 0, tempoBpm: 120 },
      { time: 0.5, tempoBpm: 60 },
    ]);
    expect(metres).toEqual([
      { time: 0, metre: { numerator: 4, denominator: 4 } },
      { time: 1.5, metre: { numerator: 7, denominator: 8 } },
    ]);
  });
});

describe("SMPTE division: ticks in a frame, whatever the tempo says", () => {
  test.each([
    { rate: 24, perSecond: 24 },
    { rate: 25, perSecond: 25 },
    // RP-001: 29 is 30 drop frame, 30000 / 1001 frames a second.
    { rate: 29, perSecond: 30_000 / 1001 },
    { rate: 30, perSecond: 30 },
  ])("-$rate, 40 ticks a frame", ({ rate, perSecond }) => {
    const division = ((256 - rate) << 8) | 40;
    const bytes = file(
      header(0, 1, division),
      track(strike(0, 36), tempo(0, 900_000), strike(40 * rate, 36), strike(4000, 36)),
    );
    expect(strikes(bytes).map(({ time }) => time)).toEqual([
      0,
      expect.closeTo(rate / perSecond, 12),
      expect.closeTo(rate / perSecond + 100 / perSecond, 12),
    ]);
  });

  // RP-001's own example: E7 28 is 25 frames of 40 ticks, one tick a millisecond.
  test("E7 28 gives milliseconds", () => {
    const bytes = file(header(0, 1, 0xe728), track(strike(1, 36), strike(999, 37)));
    expect(strikes(bytes).map(({ time }) => time)).toEqual([
      expect.closeTo(0.001, 12),
      expect.closeTo(1, 12),
    ]);
  });
});

describe("what need not disturb", () => {
  const music = track(strike(480, 38));

  test("chunks of unknown kinds, before, between and after the tracks", () => {
    const alien = chunk("XFIH", [1, 2, 3, 4, 5]);
    const bytes = file(header(1, 2, 480), alien, music, alien, alien, track(strike(0, 36)), alien);
    expect(strikes(bytes).map(({ note }) => note)).toEqual([36, 38]);
  });

  test("a header longer than today's", () => {
    const longer = chunk("MThd", [0, 0, 0, 1, 1, 0xe0, 9, 9, 9]);
    expect(strikes(file(longer, music))).toEqual([{ time: 0.5, note: 38, velocity: 100 }]);
  });

  test.each([0, 1, 3, 9])("a header that counts %s tracks where there are two", (count) => {
    expect(strikes(file(header(1, count, 480), music, music)).length).toBe(2);
  });

  test("a few stray bytes after the last track", () => {
    expect(strikes(file(header(0, 1, 480), music, [0, 0, 0])).length).toBe(1);
  });

  test("many stray bytes after the last track that the header counts", () => {
    const stray = Array.from({ length: 300 }, (_, at) => (at * 37) % 256);
    expect(strikes(file(header(1, 2, 480), music, music, stray)).length).toBe(2);
    expect(() => readSmf(file(header(1, 3, 480), music, music, stray))).toThrow(SmfError);
  });

  test("a view into a larger buffer", () => {
    const bytes = file(header(0, 1, 480), music);
    const larger = new Uint8Array(bytes.length + 20).fill(77);
    larger.set(bytes, 10);
    expect(strikes(larger.subarray(10, 10 + bytes.length)).length).toBe(1);
  });

  test("a track without strikes", () => {
    expect(readSmf(file(header(0, 1, 480), track())).events).toEqual([]);
  });
});

describe("what cannot be read is said in a sentence", () => {
  const music = track(tempo(0, 500_000), strike(0, 38), strike(480, 36), strike(480, 42));
  test.each([
    { fault: "an empty file", bytes: file(), says: "The file is empty." },
    {
      fault: "text",
      bytes: new TextEncoder().encode("not music at all"),
      says: "not a Standard MIDI File: it does not begin with MThd",
    },
    {
      fault: "another kind of file",
      bytes: file(chunk("RIFF", [1, 2, 3, 4])),
      says: "not a Standard MIDI File",
    },
    { fault: "three letters", bytes: file([0x4d, 0x54, 0x68]), says: "not a Standard MIDI File" },
    { fault: "a header alone", bytes: file(header(1, 0, 480)), says: "The file holds no track." },
    {
      fault: "only alien chunks",
      bytes: file(header(1, 1, 480), chunk("XFIH", [1])),
      says: "The file holds no track.",
    },
    {
      fault: "a header too short",
      bytes: file(chunk("MThd", [0, 1, 0, 1]), music),
      says: "The file’s header is too short.",
    },
    { fault: "a division of 0", bytes: file(header(0, 1, 0), music), says: "gives no division of time" },
    {
      fault: "a track longer than the file",
      bytes: file(header(0, 1, 480), music).slice(0, -3),
      says: "The file is cut off: its MTrk chunk ends 3 bytes after the file does.",
    },
    {
      fault: "a second track's head cut",
      bytes: file(header(1, 2, 480), music, music.slice(0, 6)),
      says: "cut off in the head of a track",
    },
    {
      // As when a program took the file for text: a length in it no longer holds.
      fault: "bytes put in",
      bytes: file(header(1, 2, 480), music.slice(0, 12), [0x0d], music.slice(12), music),
      says: "a track should begin, and none does",
    },
    {
      fault: "an event cut off within a whole chunk",
      bytes: file(header(0, 1, 480), chunk("MTrk", [0, 0x99, 38])),
      says: "The file is broken: a message in it has a data byte that is missing",
    },
    {
      fault: "a data byte above 127",
      bytes: file(header(0, 1, 480), chunk("MTrk", [0, 0x99, 38, 200, ...END_OF_TRACK])),
      says: "missing or above 127",
    },
    {
      fault: "data before any status",
      bytes: file(header(0, 1, 480), chunk("MTrk", [0, 38, 100, ...END_OF_TRACK])),
      says: "The file is broken (",
    },
    {
      fault: "a delta time of five bytes",
      bytes: file(header(0, 1, 480), track([0xff, 0xff, 0xff, 0xff, 0x7f, 0x99, 38, 100])),
      says: "a delta time in it has more than four bytes",
    },
    {
      fault: "a tempo of 0",
      bytes: file(header(0, 1, 480), track(tempo(0, 0), strike(480, 38))),
      says: "a tempo in which no time passes",
    },
  ])("$fault", ({ bytes, says }) => {
    expect(() => readSmf(bytes)).toThrow(SmfError);
    expect(() => readSmf(bytes)).toThrow(says);
  });

  test("a file cut off anywhere inside is never taken for a whole one", () => {
    const whole = file(header(1, 2, 480), music, music);
    // Cut between its two tracks it is a whole file whose header counts wrongly.
    const between = header(1, 2, 480).length + music.length;
    for (let length = 0; length < whole.length; length += 1) {
      if (length === between) continue;
      expect(() => readSmf(whole.slice(0, length)), `cut to ${length} bytes`).toThrow(SmfError);
    }
  });

  test("no bytes whatever fail in another way, or give a time or a number that is none", () => {
    const whole = [...file(header(1, 2, 480), music, music)];
    const mangled = fc
      .array(fc.tuple(fc.nat({ max: whole.length - 1 }), fc.nat({ max: 255 })), {
        minLength: 1,
        maxLength: 6,
      })
      .map((changes) => {
        const bytes = Uint8Array.from(whole);
        for (const [at, value] of changes) bytes[at] = value;
        return bytes;
      });
    fc.assert(
      fc.property(fc.oneof(mangled, fc.uint8Array({ maxLength: 80 })), (bytes) => {
        try {
          for (const { time, message } of readSmf(bytes).events) {
            expect(time).toBeGreaterThanOrEqual(0);
            for (const value of Object.values(message)) expect(value).not.toBeNaN();
          }
        } catch (error) {
          expect(error).toBeInstanceOf(SmfError);
        }
      }),
      { numRuns: 2000 },
    );
  });
});
