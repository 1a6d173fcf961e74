import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { readSmf, writePlayedSmf } from "../../../engine/formats/index.ts";
import { type Hit, parseKitMap } from "../../../engine/kit/index.ts";
import { FOUR_FOUR } from "../../../engine/score/index.ts";
import generalMidi from "../../../kit-maps/general-midi-1.json" with { type: "json" };

const map = parseKitMap(generalMidi, "general-midi-1.json");

function hitAt(time: number, velocity = 0.5, voice: Hit["voice"] = "snare"): Hit {
  return { time, voice, velocity, zone: "whole", pad: 99 };
}

function strokesIn(bytes: Uint8Array) {
  return readSmf(bytes).events.flatMap(({ time, message }) =>
    message.kind === "note-on" && message.velocity > 0 ? [{ time, ...message }] : [],
  );
}

const BARS = { metre: FOUR_FOUR, barTimes: [10, 12.1, 14, 16.2] } as const;

describe("a take as a MIDI file", () => {
  test("bar lines stand where the bars were played, and the tempo follows", () => {
    const bytes = writePlayedSmf(
      "Shuffle",
      [10, 12.1, 14].map((time) => hitAt(time)),
      { played: BARS, map },
    );
    const { tempos, metres } = readSmf(bytes);
    expect(tempos.map(({ tempoBpm }) => Math.round(tempoBpm * 100) / 100)).toEqual([114.29, 126.32, 109.09]);
    expect(metres).toEqual([{ time: 0, metre: FOUR_FOUR }]);
    expect(strokesIn(bytes).map(({ time }) => Math.round(time * 1e4) / 1e4)).toEqual([0, 2.1, 4]);
  });

  test("a stroke ahead of the first bar line has a bar before it", () => {
    const bytes = writePlayedSmf("Shuffle", [hitAt(9.97), hitAt(12.1)], { played: BARS, map });
    const [ahead, later] = strokesIn(bytes);
    expect((later?.time ?? 0) - (ahead?.time ?? 0)).toBeCloseTo(2.13, 3);
    expect(ahead?.time).toBeCloseTo(2.07, 3);
  });

  test("voices have the map's keys, and a voice it has none for keeps the kit's", () => {
    const voices = ["kick", "snare", "unknown"] as const;
    const bytes = writePlayedSmf(
      "Free playing",
      voices.map((voice, at) => hitAt(10 + at, 0.5, voice)),
      { played: null, map },
    );
    expect(strokesIn(bytes).map(({ note }) => note)).toEqual([36, 38, 99]);
  });

  test("no strokes are a file without strokes", () => {
    expect(strokesIn(writePlayedSmf("Nothing", [], { played: null, map }))).toEqual([]);
  });

  test("any take keeps every stroke, its strength and its place in time", () => {
    const takes = fc.array(
      fc.record({
        time: fc.double({ min: 9, max: 40, noNaN: true }),
        velocity: fc.integer({ min: 1, max: 127 }),
      }),
      { minLength: 1, maxLength: 60 },
    );
    const barTimes = fc
      .array(fc.double({ min: 0.5, max: 4, noNaN: true }), { minLength: 1, maxLength: 12 })
      .map((lengths) => {
        let time = 10;
        return [
          time,
          ...lengths.map((length) => {
            time += length;
            return time;
          }),
        ];
      });
    fc.assert(
      fc.property(takes, fc.option(barTimes), (strokes, bars) => {
        const hits = [...strokes]
          .sort((a, b) => a.time - b.time)
          .map(({ time, velocity }) => hitAt(time, velocity / 127));
        const played = bars === null ? null : { metre: FOUR_FOUR, barTimes: bars };
        const found = strokesIn(writePlayedSmf("Any", hits, { played, map }));
        expect(found).toHaveLength(hits.length);
        const strengths = (list: readonly number[]) => [...list].sort((a, b) => a - b);
        expect(strengths(found.map(({ velocity }) => velocity))).toEqual(
          strengths(hits.map(({ velocity }) => Math.round(velocity * 127))),
        );
        // The slowest bar here is 4 s of 3840 ticks: half a tick at either end, and a tempo of whole microseconds.
        const shift = (found[0]?.time ?? 0) - (hits[0]?.time ?? 0);
        found.forEach(({ time }, at) => {
          expect(Math.abs(time - shift - (hits[at]?.time ?? 0))).toBeLessThan(0.0012);
        });
      }),
    );
  });
});
