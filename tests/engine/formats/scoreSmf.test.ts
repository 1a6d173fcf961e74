/** Scores to MIDI files and back: every note-on within one tick. */
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join, resolve } from "node:path";
import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { FILLS, STYLES } from "../../../engine/catalogue/index.ts";
import { readSmf, type SmfFile, strikesOf, transcribed, writeSmf } from "../../../engine/formats/index.ts";
import { parseKitMap, VOICES } from "../../../engine/kit/index.ts";
import { quantise } from "../../../engine/listening/index.ts";
import { pulseOfFile } from "../../../engine/listening/quantising/fileBars.ts";
import {
  inWholeBars,
  type Part,
  parseGrid,
  repeated,
  unfolded,
  usualTempo,
} from "../../../engine/score/index.ts";
import { toNumber } from "../../../engine/units/index.ts";
import generalMidi from "../../../kit-maps/general-midi-1.json" with { type: "json" };
import wideNinePiece from "../../../kit-maps/wide-nine-piece.json" with { type: "json" };
import { writtenGroove } from "../score/writtenGrooves.ts";
import { file, header, strike, tempo, timeSignature, track } from "./smfBytes.ts";

const GENERAL_MIDI = parseKitMap(generalMidi, "general-midi-1.json");
const WIDE = parseKitMap(wideNinePiece, "wide-nine-piece.json");
const EVERY_VOICE = {
  ...GENERAL_MIDI,
  pads: VOICES.map((voice, index) => ({ note: 27 + index, voice, zone: "whole" as const })),
};
const root = resolve(import.meta.dirname, "../../..");

/** Ticks of all note-ons of a file, in order, at its own division. */
function ticksOf({ events, tempos, division }: SmfFile): readonly number[] {
  if (division.of === "second") throw new Error("This file counts seconds.");
  const tickAt = (time: number): number => {
    let quarters = 0;
    tempos.forEach(({ time: from, tempoBpm }, index) => {
      const until = Math.min(time, tempos[index + 1]?.time ?? time);
      if (until > from) quarters += ((until - from) * tempoBpm) / 60;
    });
    return quarters * division.ticks;
  };
  return events.flatMap(({ time, message }) => (message.kind === "note-on" ? [tickAt(time)] : []));
}

function expectWithinATick(before: readonly number[], after: readonly number[], name: string): void {
  expect(after.length, name).toBe(before.length);
  const sorted = (ticks: readonly number[]) => [...ticks].sort((a, b) => a - b);
  const [a, b] = [sorted(before), sorted(after)];
  const worst = a.reduce((most, tick, index) => Math.max(most, Math.abs(tick - (b[index] ?? 0))), 0);
  expect(worst, name).toBeLessThanOrEqual(1);
}

describe("a file to the tick, and back", () => {
  const folders = [join(root, "tests/fixtures/groove-midi"), join(root, "../shared/data/groove-midi")];
  const paths = folders.filter(existsSync).flatMap((folder) =>
    readdirSync(folder, { recursive: true, encoding: "utf8" })
      .filter((name) => name.endsWith(".mid"))
      .map((name) => join(folder, name)),
  );

  test("every human take that is there keeps every note-on", () => {
    expect(paths.length).toBeGreaterThanOrEqual(6);
    let strikes = 0;
    for (const path of paths) {
      const before = readSmf(readFileSync(path));
      const { score, ticksPerQuarter } = transcribed(before, WIDE);
      const after = readSmf(writeSmf(score, { map: WIDE, ticksPerQuarter }));
      expectWithinATick(ticksOf(before), ticksOf(after), path);
      strikes += ticksOf(before).length;
    }
    console.info(`${paths.length} takes, ${strikes} note-ons, each within one tick`);
  }, 120_000);

  test("tempos and metres stay where they are; a metre within a bar waits for the next", () => {
    const bytes = file(
      header(1, 2, 480),
      track(
        tempo(0, 500_000),
        timeSignature(0, 3, 2),
        tempo(2000, 400_000),
        timeSignature(0, 4, 2),
        tempo(4000, 600_000),
      ),
      track(strike(0, 36), strike(1441, 38), strike(1001, 42), strike(6000, 36)),
    );
    const before = readSmf(bytes);
    const { score } = transcribed(before, GENERAL_MIDI);
    const after = readSmf(writeSmf(score, { map: GENERAL_MIDI }));
    expectWithinATick(ticksOf(before), ticksOf(after), "made up");
    expect(after.tempos.map(({ tempoBpm }) => Math.round(tempoBpm))).toEqual([120, 150, 150, 100]);
    expect(score.stretches.map(({ metre, bars }) => [metre.numerator, bars])).toEqual([
      [3, 2],
      [4, 3],
    ]);
    strikesOf(after, GENERAL_MIDI).forEach(({ time }, index) => {
      expect(Math.abs(time - (strikesOf(before, GENERAL_MIDI)[index]?.time ?? 0))).toBeLessThan(0.002);
    });
  });

  test("a file that counts frames keeps every moment within one of its ticks", () => {
    const division = ((256 - 25) << 8) | 40;
    const before = readSmf(
      file(header(0, 1, division), track(strike(1, 36), strike(333, 38), strike(5001, 42))),
    );
    const { score, ticksPerQuarter } = transcribed(before, GENERAL_MIDI);
    const after = strikesOf(readSmf(writeSmf(score, { map: GENERAL_MIDI, ticksPerQuarter })), GENERAL_MIDI);
    const times = strikesOf(before, GENERAL_MIDI).map(({ time }) => time);
    expect(after.length).toBe(3);
    after.forEach(({ time }, index) => {
      expect(Math.abs(time - (times[index] ?? 0))).toBeLessThanOrEqual(0.001);
    });
  });
});

describe("a score, its file, the score read from it, and its file again", () => {
  const cases = [...STYLES.flatMap(({ variants }) => variants), ...FILLS.map(inWholeBars)].map((groove) => ({
    id: groove.id,
    groove,
  }));
  test.each(cases)("$id: every note-on within one tick", ({ groove }) => {
    const bars = groove.bars * 2;
    const tempoBpm = usualTempo(groove);
    const score = {
      name: groove.name,
      stretches: [{ ...groove, tempoBpm, bars, notes: repeated(groove, bars) }],
    };
    const before = readSmf(writeSmf(score, { map: GENERAL_MIDI }));
    const hits = strikesOf(before, GENERAL_MIDI);
    const pulse = pulseOfFile(hits, before);
    if (!pulse) throw new Error("The file has no pulse.");
    const { feel } = groove;
    const swing =
      feel.kind === "swung"
        ? {
            ratio: feel.ratio,
            of: feel.written === "sixteenths" ? ("sixteenths" as const) : ("eighths" as const),
          }
        : null;
    const read = quantise(hits, { pulse, swing });
    const stretch = { ...read, tempoBpm };
    const after = readSmf(writeSmf({ name: groove.name, stretches: [stretch] }, { map: GENERAL_MIDI }));
    expectWithinATick(ticksOf(before), ticksOf(after), groove.id);
  });

  test("any score prints, is read, and is written with every stroke", () => {
    fc.assert(
      fc.property(writtenGroove, fc.integer({ min: 24, max: 960 }), ({ text }, ticksPerQuarter) => {
        const groove = parseGrid(text);
        const score = { name: groove.name, stretches: [{ ...groove, tempoBpm: 97 }] };
        const written = readSmf(writeSmf(score, { map: EVERY_VOICE, ticksPerQuarter }));
        const graces = { none: 0, flam: 1, drag: 2 };
        const strokes = groove.notes.reduce((sum, { ornament }) => sum + 1 + graces[ornament ?? "none"], 0);
        const again = transcribed(written, EVERY_VOICE);
        const after = readSmf(writeSmf(again.score, { map: EVERY_VOICE, ticksPerQuarter }));
        expect(ticksOf(written).length).toBe(strokes);
        expectWithinATick(ticksOf(written), ticksOf(after), text);
      }),
      { numRuns: 150 },
    );
  });
});

test("a part is written with its tempo and metre map", () => {
  const groove = (id: string, metre: string) =>
    parseGrid(`groove: ${id}\nname: ${id}\nmetre: ${metre}\ntempo: 60-200\nkick | x |`);
  const part: Part = {
    id: "p",
    name: "Part",
    sections: [
      { name: "A", tempoBpm: 120, times: 2, passages: [{ groove: groove("four", "4/4"), bars: 2 }] },
      { name: "B", tempoBpm: 60, times: 1, passages: [{ groove: groove("six", "6/8"), bars: 2 }] },
    ],
  };
  const written = readSmf(writeSmf({ name: part.name, stretches: unfolded(part) }, { map: GENERAL_MIDI }));
  expect(written.metres).toEqual([
    { time: 0, metre: { numerator: 4, denominator: 4 } },
    { time: 8, metre: { numerator: 6, denominator: 8 } },
  ]);
  // Two dotted quarters at 60 a minute last two seconds.
  expect(strikesOf(written, GENERAL_MIDI).map(({ time }) => time)).toEqual(
    [0, 2, 4, 6, 8, 10].map((time) => expect.closeTo(time, 4)),
  );
  expect(unfolded(part).map(({ notes }) => notes.map(({ position }) => toNumber(position)))).toEqual([
    [0, 4],
    [0, 4],
    [0, 2],
  ]);
});
