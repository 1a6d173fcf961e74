import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type MidiMessage, readMidiBytes } from "../../../engine/kit/index.ts";

const on = (note: number, velocity: number, channel = 9): MidiMessage => ({
  kind: "note-on",
  channel,
  note,
  velocity,
});
const off = (note: number, channel = 9): MidiMessage => ({ kind: "note-off", channel, note });

describe("MIDI 1.0 (MMA 1996), worked streams", () => {
  test("strike, release, pedal, strike, grab", () => {
    const bytes = [0x99, 0x26, 0x64, 0x26, 0x00, 0xb9, 0x04, 0x5a, 0x99, 0x2a, 0x46, 0xa9, 0x31, 0x7f];
    expect(readMidiBytes(bytes)).toEqual([
      on(38, 100),
      off(38),
      { kind: "control", channel: 9, controller: 4, value: 90 },
      on(42, 70),
      { kind: "key-pressure", channel: 9, note: 49, pressure: 127 },
    ]);
  });

  test("running status: the status byte is left out while it stays the same", () => {
    expect(readMidiBytes([0x99, 0x26, 0x64, 0x24, 0x50])).toEqual([on(38, 100), on(36, 80)]);
  });

  test("a note-on with velocity 0 is a release, no strike", () => {
    expect(readMidiBytes([0x99, 38, 0])).toEqual([off(38)]);
    expect(readMidiBytes([0x89, 38, 64])).toEqual([off(38)]);
  });

  test.each([0xf8, 0xfa, 0xfb, 0xfc, 0xfe, 0xff])(
    "real-time byte %i may stand between any two",
    (realTime) => {
      const bytes = [0x99, 38, 100, 36, 80];
      for (let at = 0; at <= bytes.length; at += 1) {
        const with1 = [...bytes.slice(0, at), realTime, ...bytes.slice(at)];
        expect(readMidiBytes(with1)).toEqual([on(38, 100), on(36, 80)]);
      }
    },
  );

  test.each([
    { name: "system exclusive", bytes: [0xf0, 0x7e, 0x10, 0x20, 0xf7] },
    { name: "song position", bytes: [0xf2, 0x10, 0x20] },
    { name: "tune request", bytes: [0xf6] },
  ])("$name is passed over and ends running status", ({ bytes }) => {
    expect(readMidiBytes([0x99, 38, 100, ...bytes, 36, 80])).toEqual([on(38, 100)]);
    expect(readMidiBytes([0x99, 38, 100, ...bytes, 0x99, 36, 80])).toEqual([on(38, 100), on(36, 80)]);
  });

  test("messages of one data byte do not shift those after them", () => {
    expect(readMidiBytes([0xc9, 5, 0x99, 38, 100, 0xd9, 60, 61, 0x99, 36, 80])).toEqual([
      { kind: "other" },
      on(38, 100),
      { kind: "other" },
      { kind: "other" },
      on(36, 80),
    ]);
    expect(readMidiBytes([0xe9, 0, 64, 0x99, 38, 1])).toEqual([{ kind: "other" }, on(38, 1)]);
  });

  test("data before any status means nothing", () => {
    expect(readMidiBytes([38, 100, 0x99, 38, 100])).toEqual([on(38, 100)]);
    expect(readMidiBytes([])).toEqual([]);
  });
});

const sevenBits = fc.integer({ min: 0, max: 127 });
const channel = fc.integer({ min: 0, max: 15 });
/** A message with the bytes that say it. */
const message: fc.Arbitrary<{ bytes: number[]; said: MidiMessage }> = fc.oneof(
  fc.tuple(channel, sevenBits, fc.integer({ min: 1, max: 127 })).map(([n, note, velocity]) => ({
    bytes: [0x90 | n, note, velocity],
    said: on(note, velocity, n),
  })),
  fc
    .tuple(channel, sevenBits, sevenBits)
    .map(([n, note, velocity]) => ({ bytes: [0x80 | n, note, velocity], said: off(note, n) })),
  fc.tuple(channel, sevenBits, sevenBits).map(([n, note, pressure]) => ({
    bytes: [0xa0 | n, note, pressure],
    said: { kind: "key-pressure" as const, channel: n, note, pressure },
  })),
  fc.tuple(channel, sevenBits, sevenBits).map(([n, controller, value]) => ({
    bytes: [0xb0 | n, controller, value],
    said: { kind: "control" as const, channel: n, controller, value },
  })),
  fc.tuple(channel, sevenBits).map(([n, program]) => ({
    bytes: [0xc0 | n, program],
    said: { kind: "other" as const },
  })),
);

/** The same stream with every status byte left out that repeats the one before. */
function withRunningStatus(messages: readonly { readonly bytes: readonly number[] }[]): number[] {
  let status: number | undefined;
  return messages.flatMap(({ bytes }) => {
    const [first, ...data] = bytes;
    const repeats = first === status;
    status = first;
    return repeats ? data : [...bytes];
  });
}

test("any stream of messages is read back, plain, with running status, and cut off anywhere", () => {
  fc.assert(
    fc.property(fc.array(message, { maxLength: 30 }), fc.nat(), (messages, cut) => {
      const said = messages.map((each) => each.said);
      const plain = messages.flatMap(({ bytes }) => bytes);
      expect(readMidiBytes(plain)).toEqual(said);
      expect(readMidiBytes(withRunningStatus(messages))).toEqual(said);
      const short = readMidiBytes(plain.slice(0, plain.length === 0 ? 0 : cut % plain.length));
      expect(said.slice(0, short.length)).toEqual(short);
    }),
  );
});

test("no bytes whatever make it fail, or give a data byte above 127", () => {
  fc.assert(
    fc.property(fc.uint8Array({ maxLength: 200 }), (bytes) => {
      for (const read of readMidiBytes(bytes)) {
        for (const value of Object.values(read)) {
          if (typeof value === "number") expect(value >= 0 && value <= 127).toBe(true);
        }
      }
    }),
  );
});
