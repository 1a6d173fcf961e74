/**
 * Standard MIDI Files 1.0, RP-001 (MIDI Manufacturers Association 1996): the published bytes, through the reader.
 */
import { describe, expect, test } from "vitest";
import { readSmf, writeGrooveSmf } from "../../engine/formats/index.ts";
import { parseKitMap } from "../../engine/kit/index.ts";
import { parseGrid } from "../../engine/score/index.ts";
import generalMidi from "../../kit-maps/general-midi-1.json" with { type: "json" };
import { file, header, strike, tempo, track } from "../engine/formats/smfBytes.ts";

const GENERAL_MIDI = parseKitMap(generalMidi, "general-midi-1.json");

/** Bytes as the specification prints them. */
function hex(text: string): number[] {
  return text.split(" ").map((byte) => Number.parseInt(byte, 16));
}

/** Times of the strikes, in ticks of 480 at 120 a minute, the tempo of a file that says none. */
function ticksOf(bytes: Uint8Array): number[] {
  return readSmf(bytes)
    .events.filter(({ message }) => message.kind === "note-on")
    .map(({ time }) => Math.round(time * 960 * 1e6) / 1e6);
}

describe("variable-length quantities: the table of examples, and ticks we use (computed)", () => {
  test.each([
    { value: 0x00000000, bytes: "00" },
    { value: 0x00000040, bytes: "40" },
    { value: 0x0000007f, bytes: "7F" },
    { value: 0x00000080, bytes: "81 00" },
    { value: 0x00002000, bytes: "C0 00" },
    { value: 0x00003fff, bytes: "FF 7F" },
    { value: 0x00004000, bytes: "81 80 00" },
    { value: 0x00100000, bytes: "C0 80 00" },
    { value: 0x001fffff, bytes: "FF FF 7F" },
    { value: 0x00200000, bytes: "81 80 80 00" },
    { value: 0x08000000, bytes: "C0 80 80 00" },
    { value: 0x0fffffff, bytes: "FF FF FF 7F" },
    { value: 480, bytes: "83 60" },
    { value: 960, bytes: "87 40" },
    { value: 1920, bytes: "8F 00" },
  ])("$bytes is $value ticks", ({ value, bytes }) => {
    const before = ticksOf(file(header(0, 1, 480), track([...hex(bytes), 0x99, 38, 100])));
    expect(before).toEqual([value]);
    // And the event after it is found where it should be: no byte too few or too many was taken.
    const after = file(header(0, 1, 480), track([...hex(bytes), 0x99, 38, 100], [0x01, 0x99, 36, 100]));
    expect(ticksOf(after)).toEqual([value, value + 1]);
  });
});

describe("ticks to seconds (computed, division 480)", () => {
  // 120 a minute to tick 1920, then 90.
  const changes = (at: number) =>
    at <= 1920
      ? track(tempo(0, 500_000), strike(at, 38))
      : track(tempo(0, 500_000), tempo(1920, 666_667), strike(at - 1920, 38));

  test.each([
    { tick: 1920, seconds: 2 },
    { tick: 2160, seconds: 2.333333 },
    { tick: 2400, seconds: 2.666667 },
    { tick: 1, seconds: 0.001041667 },
    { tick: 120, seconds: 0.125 },
  ])("tick $tick is at $seconds s", ({ tick, seconds }) => {
    const { events } = readSmf(file(header(0, 1, 480), changes(tick)));
    expect(events.length).toBe(1);
    // The tempo itself is rounded to a microsecond a quarter note.
    expect(Math.abs((events[0]?.time ?? 0) - seconds)).toBeLessThan(1e-6);
  });
});

describe("tempo: microseconds a quarter note, three bytes", () => {
  test.each([
    { bpm: 60, bytes: "0F 42 40" },
    { bpm: 90, bytes: "0A 2C 2B" },
    { bpm: 100, bytes: "09 27 C0" },
    { bpm: 120, bytes: "07 A1 20" },
    { bpm: 140, bytes: "06 8A 1B" },
  ])("$bpm is $bytes", ({ bpm, bytes }) => {
    const { tempos } = readSmf(
      file(header(0, 1, 480), track([0, 0xff, 0x51, 3, ...hex(bytes)], strike(480, 38))),
    );
    expect(tempos).toEqual([{ time: 0, tempoBpm: expect.closeTo(bpm, 3) }]);

    const pulse = parseGrid("groove: p\nname: P\nmetre: 4/4\ntempo: 60-140\nkick | xxxx |");
    const written = writeGrooveSmf(pulse, { bars: 1, tempoBpm: bpm, map: GENERAL_MIDI });
    expect(Buffer.from(written).includes(Buffer.from([0xff, 0x51, 3, ...hex(bytes)]))).toBe(true);
  });

  test("a file that says none runs at 120", () => {
    expect(readSmf(file(header(0, 1, 480), track(strike(480, 38)))).events[0]?.time).toBe(0.5);
  });
});

describe("time signatures", () => {
  test.each([
    { bytes: "FF 58 04 04 02 18 08", numerator: 4, denominator: 4 },
    { bytes: "FF 58 04 06 03 24 08", numerator: 6, denominator: 8 },
    { bytes: "FF 58 04 03 01 30 08", numerator: 3, denominator: 2 },
    { bytes: "FF 58 04 07 04 06 08", numerator: 7, denominator: 16 },
  ])("$bytes is $numerator/$denominator", ({ bytes, numerator, denominator }) => {
    const { metres } = readSmf(file(header(0, 1, 480), track([0, ...hex(bytes)])));
    expect(metres).toEqual([{ time: 0, metre: { numerator, denominator } }]);
  });
});

/** The specification's own example file (its appendix): format 0, 96 ticks, three notes struck, one a quarter later than the next. */
test("the published example of a whole file, format 0", () => {
  const bytes = hex(
    [
      "4D 54 68 64 00 00 00 06 00 00 00 01 00 60",
      "4D 54 72 6B 00 00 00 3B",
      "00 FF 58 04 04 02 18 08",
      "00 FF 51 03 07 A1 20",
      "00 C0 05 00 C1 2E 00 C2 46",
      "00 92 30 60 00 3C 60",
      "60 91 43 40",
      "60 90 4C 20",
      "81 40 82 30 40 00 3C 40 00 81 43 40 00 80 4C 40",
      "00 FF 2F 00",
    ].join(" "),
  );
  const { format, events, tempos, metres } = readSmf(Uint8Array.from(bytes));
  expect({ format, tempos, metres }).toEqual({
    format: 0,
    tempos: [{ time: 0, tempoBpm: 120 }],
    metres: [{ time: 0, metre: { numerator: 4, denominator: 4 } }],
  });
  expect(
    events.map(({ time, message }) => [time, message.kind, "note" in message ? message.note : undefined]),
  ).toEqual([
    [0, "note-on", 48],
    [0, "note-on", 60],
    [0.5, "note-on", 67],
    [1, "note-on", 76],
    [2, "note-off", 48],
    [2, "note-off", 60],
    [2, "note-off", 67],
    [2, "note-off", 76],
  ]);
});
