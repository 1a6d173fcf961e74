import { parseMidi } from "midi-file";
import { describe, expect, test } from "vitest";
import { STYLES } from "../../../engine/catalogue/index.ts";
import { NoKeyError, readSmf, strikesOf, writeGrooveSmf } from "../../../engine/formats/index.ts";
import { noteFor, parseKitMap } from "../../../engine/kit/index.ts";
import {
  beatsPerQuarter,
  DYNAMIC_VELOCITY,
  type Groove,
  type Note,
  parseGrid,
  performed,
} from "../../../engine/score/index.ts";
import { toNumber } from "../../../engine/units/index.ts";
import generalMidi from "../../../kit-maps/general-midi-1.json" with { type: "json" };

const GENERAL_MIDI = parseKitMap(generalMidi, "general-midi-1.json");

function grid(metre: string, lines: string, feel = "straight") {
  return parseGrid(`groove: g\nname: Made up\nmetre: ${metre}\nfeel: ${feel}\ntempo: 60-200\n${lines}`);
}

/** The tempo of quarters, which a file holds, where felt beats go by at `feltBpm`. */
function quarterBpm({ metre }: Groove, feltBpm: number): number {
  return feltBpm / toNumber(beatsPerQuarter(metre));
}

/** A flam's grace stroke comes 26 ms before it, a drag's two 52 and 26 ms. */
const GRACE_SECONDS = 0.026;
const GRACE_STROKES = { none: 0, flam: 1, drag: 2 } as const;

/** When a written stroke at `time` is struck: its grace strokes, which are ghosts, then itself. */
function strokesOf({ ornament, dynamic }: Note, time: number) {
  const graces = GRACE_STROKES[ornament ?? "none"];
  return Array.from({ length: graces + 1 }, (_, index) => ({
    time: time - (graces - index) * GRACE_SECONDS,
    velocity: DYNAMIC_VELOCITY[index < graces ? "ghost" : dynamic],
  }));
}

/** The times of all strikes, to the nearest tick of 480 at this tempo of quarters. */
function ticksOf(bytes: Uint8Array, quarterBpm: number): number[] {
  return strikesOf(readSmf(bytes), GENERAL_MIDI).map(({ time }) => (time * quarterBpm * 480) / 60);
}

describe("every groove of the stock, written and read back", () => {
  const cases = STYLES.flatMap(({ variants }) => variants).flatMap((groove) =>
    [groove.tempoBpm.low, groove.tempoBpm.high].map((tempoBpm) => ({ id: groove.id, groove, tempoBpm })),
  );
  test.each(cases)("$id at $tempoBpm", ({ groove, tempoBpm }) => {
    const bars = 4;
    const file = readSmf(writeGrooveSmf(groove, { bars, tempoBpm, map: GENERAL_MIDI }));
    expect(file.format).toBe(0);
    expect(file.metres).toEqual([{ time: 0, metre: groove.metre }]);
    const inQuarters = quarterBpm(groove, tempoBpm);
    // A file holds whole microseconds a quarter: half of one in 600,000 is all it may be off.
    expect(file.tempos).toEqual([{ time: 0, tempoBpm: expect.any(Number) }]);
    expect(Math.abs((file.tempos[0]?.tempoBpm ?? 0) / inQuarters - 1)).toBeLessThan(
      inQuarters / 1.2e8 + 1e-9,
    );

    const expected = performed(groove, { tempoBpm, bars })
      .flatMap(({ time, note }) =>
        strokesOf(note, time).map((stroke) => ({ ...stroke, pad: noteFor(GENERAL_MIDI, note.voice) })),
      )
      .sort((a, b) => a.time - b.time || (a.pad ?? 0) - (b.pad ?? 0));
    const hits = strikesOf(file, GENERAL_MIDI);
    expect(hits.length).toBe(expected.length);
    // Half a tick, and what half a microsecond a quarter comes to over the file.
    const halfTick = 30 / (inQuarters * 480) + 1e-5;
    hits.forEach(({ time, pad, velocity }, index) => {
      expect(pad).toBe(expected[index]?.pad);
      expect(Math.abs(time - (expected[index]?.time ?? 0))).toBeLessThan(halfTick);
      expect(Math.abs(velocity - (expected[index]?.velocity ?? 0))).toBeLessThan(1 / 127);
    });
  });
});

describe("time signatures of the file (RP-001)", () => {
  test.each([
    { metre: "4/4", bytes: [0xff, 0x58, 4, 4, 2, 24, 8] },
    { metre: "3/4", bytes: [0xff, 0x58, 4, 3, 2, 24, 8] },
    // The specification's own example: 6/8 clicks every dotted quarter, 36 clocks.
    { metre: "6/8", bytes: [0xff, 0x58, 4, 6, 3, 36, 8] },
    { metre: "12/8", bytes: [0xff, 0x58, 4, 12, 3, 36, 8] },
    { metre: "7/8", bytes: [0xff, 0x58, 4, 7, 3, 12, 8] },
    { metre: "2/2", bytes: [0xff, 0x58, 4, 2, 1, 48, 8] },
  ])("$metre", ({ metre, bytes }) => {
    const written = writeGrooveSmf(grid(metre, "kick | x |"), { bars: 1, tempoBpm: 90, map: GENERAL_MIDI });
    expect(Buffer.from(written).includes(Buffer.from(bytes))).toBe(true);
  });
});

describe("where strokes fall", () => {
  test("sixteenths of 4/4 are 120 ticks apart", () => {
    const bytes = writeGrooveSmf(grid("4/4", "snare | xxxxxxxxxxxxxxxx |"), {
      bars: 1,
      tempoBpm: 97,
      map: GENERAL_MIDI,
    });
    expect(ticksOf(bytes, 97)).toEqual(
      Array.from({ length: 16 }, (_, step) => expect.closeTo(step * 120, 2)),
    );
  });

  test("in 12/8 the tempo counts dotted quarters: eighths are 240 ticks apart", () => {
    const bytes = writeGrooveSmf(grid("12/8", "snare | xxxxxxxxxxxx |"), {
      bars: 1,
      tempoBpm: 60,
      map: GENERAL_MIDI,
    });
    expect(readSmf(bytes).tempos[0]?.tempoBpm).toBeCloseTo(90, 3);
    expect(ticksOf(bytes, 90)).toEqual(
      Array.from({ length: 12 }, (_, step) => expect.closeTo(step * 240, 2)),
    );
  });

  // Computed from r / (r + 1) of 480 ticks.
  test.each([
    { ratio: 1, tick: 240 },
    { ratio: 1.5, tick: 288 },
    { ratio: 2, tick: 320 },
    { ratio: 3, tick: 360 },
  ])("swung $ratio : 1 the off-beat stands at tick $tick", ({ ratio, tick }) => {
    const bytes = writeGrooveSmf(grid("4/4", "ride | xx .. .. .. |", `swung ${ratio} eighths`), {
      bars: 1,
      tempoBpm: 120,
      map: GENERAL_MIDI,
    });
    expect(ticksOf(bytes, 120)[1]).toBeCloseTo(tick, 2);
  });

  test("a flam has one soft stroke before it, a drag two, 26 ms apart", () => {
    const bytes = writeGrooveSmf(grid("4/4", "snare | .f.d |"), { bars: 1, tempoBpm: 60, map: GENERAL_MIDI });
    const hits = strikesOf(readSmf(bytes), GENERAL_MIDI);
    expect(hits.length).toBe(5);
    hits.forEach(({ time }, index) => {
      const expected = [0.974, 1, 2.948, 2.974, 3][index] ?? Number.NaN;
      // Half a tick of 480 at 60 a minute is 1.04 ms.
      expect(Math.abs(time - expected)).toBeLessThan(0.00105);
    });
    expect(hits.map(({ velocity }) => velocity < 0.3)).toEqual([true, false, true, true, false]);
  });
});

test("every strike is released, and the track ends with its end", () => {
  const bytes = writeGrooveSmf(grid("4/4", "snare | xxxxxxxx |\nkick | x.x.x.x. |"), {
    bars: 2,
    tempoBpm: 200,
    map: GENERAL_MIDI,
  });
  const { header, tracks } = parseMidi(bytes);
  expect(header).toMatchObject({ format: 0, numTracks: 1, ticksPerBeat: 480 });
  const [events = []] = tracks;
  for (const key of [36, 38]) {
    const count = (type: string) =>
      events.filter((event) => event.type === type && "noteNumber" in event && event.noteNumber === key)
        .length;
    expect(count("noteOn")).toBe(key === 36 ? 8 : 16);
    expect(count("noteOff")).toBe(count("noteOn"));
  }
  expect(events.at(-1)?.type).toBe("endOfTrack");
  expect(events.every((event) => !("channel" in event) || event.channel === 9)).toBe(true);
});

test("a voice the map has no key for is named, with the map", () => {
  const kickOnly = { ...GENERAL_MIDI, pads: GENERAL_MIDI.pads.filter(({ voice }) => voice === "kick") };
  const write = () => writeGrooveSmf(grid("4/4", "snare | x |"), { bars: 1, tempoBpm: 90, map: kickOnly });
  expect(write).toThrow(NoKeyError);
  expect(write).toThrow("The map General MIDI 1 has no key for the snare.");
});
