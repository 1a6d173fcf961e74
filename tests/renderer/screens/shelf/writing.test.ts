import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { writeGrooveSmf } from "../../../../engine/formats/index.ts";
import { type Groove, inOrder, parseGrid, plainClick } from "../../../../engine/score/index.ts";
import { answered } from "../../../../renderer/screens/shelf/record/answered.ts";
import { questionOf } from "../../../../renderer/screens/shelf/record/unsureWords.ts";
import { readFile } from "../../../../renderer/screens/shelf/writing/readFile.ts";
import { writeDown } from "../../../../renderer/screens/shelf/writing/writeDown.ts";
import { SHIPPED_MAPS } from "../../../../renderer/session/kitMapChoice.ts";
import { played, writtenGrooveOf } from "../../../engine/listening/played.ts";

const [map] = SHIPPED_MAPS;
if (!map) throw new Error("No kit map ships.");
const ROCK = writtenGrooveOf("rock-eighths");
/** Made up: nothing on hi-hat or cymbals, and more between the beats than on them. */
const OFF_BEATS = parseGrid(`groove: b
name: B
metre: 4/4
tempo: 100-140
floor-tom | .x .x .x xx |
snare     | .. .x .. .x |
kick      | .x .. .x .. |`);
const strokes = (groove: {
  readonly notes: readonly { readonly voice: string; readonly position: { num: number; den: number } }[];
}) => groove.notes.map(({ voice, position }) => `${voice} ${position.num}/${position.den}`).sort();

describe("a file", () => {
  test("gives the groove that comes round in it", () => {
    const bytes = writeGrooveSmf(ROCK, { bars: 8, tempoBpm: 100, map });
    const read = readFile(bytes, SHIPPED_MAPS);
    expect(read).toMatchObject({ kind: "found", as: "groove", bar: 1 });
    expect(read.kind === "found" && strokes(read.music)).toEqual(strokes(ROCK));
  });

  test("that is too short for that is a phrase", () => {
    const read = readFile(writeGrooveSmf(ROCK, { bars: 1, tempoBpm: 100, map }), SHIPPED_MAPS);
    expect(read).toMatchObject({ kind: "found", as: "phrase", bar: 1 });
    expect(read.kind === "found" && strokes(read.music)).toEqual(strokes(ROCK));
  });

  test("of a real drummer gives one as well", () => {
    const path = new URL("../../../fixtures/groove-midi/9_latin-merengue_158_beat_4-4.mid", import.meta.url);
    expect(readFile(readFileSync(path), SHIPPED_MAPS)).toMatchObject({ kind: "found", as: "groove" });
  });

  test.each([
    ["no MIDI file", Buffer.from("Dear drummer"), "does not begin with MThd"],
    ["empty", Buffer.alloc(0), "empty"],
    [
      "silent",
      Buffer.from("4d546864000000060000000101e04d54726b0000000400ff2f00", "hex"),
      "There is no stroke in it.",
    ],
    // Three notes far above any kit.
    [
      "no drums",
      Buffer.from("4d546864000000060000000101e04d54726b000000100090785000907950009f7a5000ff2f00", "hex"),
      "not those of a drum kit",
    ],
  ])("that is %s is told so", (_, bytes, reason) => {
    const read = readFile(bytes, SHIPPED_MAPS);
    expect(read.kind === "failed" && read.reason).toContain(reason);
  });
});

describe("a take", () => {
  test("freely played is written down, whole and as what comes round", () => {
    const written = writeDown(played(ROCK, { bars: 6, tempoBpm: 100, spreadMs: 6 }), null);
    if (written.kind !== "written") throw new Error(written.reason);
    expect(written.whole.bars).toBe(6);
    expect(written.round && strokes(written.round.groove)).toEqual(strokes(ROCK));
    expect(written.round).toMatchObject({ outOf: 6 });
  });

  test("to a click lies on the bars of the click, whatever the ear would say", () => {
    const turned = played(ROCK, { bars: 7, tempoBpm: 100 }).map((hit) => ({
      ...hit,
      time: hit.time + 10 - 1.2,
    }));
    const hits = turned.filter(({ time }) => time >= 9.9);
    const click = { tempoBpm: 100, from: 10, way: plainClick(ROCK.metre) };
    const written = writeDown(hits, click);
    if (written.kind !== "written") throw new Error(written.reason);
    // The backbeat, written on two and four, is then on four and two: the second beat of a bar of the click is a kick.
    const snares = written.round?.groove.notes
      .filter(({ voice }) => voice === "snare")
      .map(({ position }) => position.num);
    expect(snares).toEqual([1, 3]);
    const kicks = written.round?.groove.notes
      .filter(({ voice }) => voice === "kick")
      .map(({ position }) => position);
    expect(kicks?.[0]).toEqual({ num: 0, den: 1 });
  });

  test("to a click may begin with what sounds like a count: it is played, and the beat is not asked about", () => {
    const groove = parseGrid(
      "groove: a\nname: A\nmetre: 4/4\ntempo: 80-120\nsticks | x x x x | . . . . |\nkick | . . . . | .x .x .x xx |\nsnare | . . . . | x. x. x. x. |",
    );
    const hits = played(groove, { tempoBpm: 100, bars: 4 });
    const written = writeDown(hits, { tempoBpm: 100, from: 0, way: plainClick(groove.metre) });
    if (written.kind !== "written") throw new Error(written.reason);
    expect(written.whole.notes).toHaveLength(hits.length);
    expect(strokes({ notes: written.whole.notes.slice(0, groove.notes.length) })).toEqual(strokes(groove));
    expect(written.unsureBeat).toEqual({ between: false, one: false });
  });

  test.each([
    { countIn: true, unsure: false },
    { countIn: false, unsure: true },
  ])(
    "without cymbals and without a click is asked about the beat unless it was counted: $countIn",
    ({ countIn, unsure }) => {
      const hits = played(OFF_BEATS, { tempoBpm: 120, bars: 6 });
      const counts = [-2, -1.5, -1, -0.5].map(
        (time) => ({ time, voice: "sticks", zone: "whole", velocity: 0.6, pad: 0 }) as const,
      );
      const written = writeDown(countIn ? [...counts, ...hits] : hits, null);
      if (written.kind !== "written") throw new Error(written.reason);
      expect(written.unsureBeat.between).toBe(unsure);
      if (countIn) expect(written.round && strokes(written.round.groove)).toEqual(strokes(OFF_BEATS));
    },
  );

  test("with time kept on a cymbal is not asked whether it lies half a beat off", () => {
    const written = writeDown(played(ROCK, { bars: 6, tempoBpm: 100, spreadMs: 6 }), null);
    expect(written.kind === "written" && written.unsureBeat.between).toBe(false);
  });

  test.each([1 / 2, -1 / 2, 1, -1, 3])(
    "moved by %s beats is what was played, written that much earlier in the bar",
    (later) => {
      const hits = played(ROCK, { bars: 6, tempoBpm: 100 });
      const [as, moved] = [writeDown(hits, null), writeDown(hits, null, later)];
      if (as.kind !== "written" || moved.kind !== "written" || !as.round || !moved.round)
        throw new Error("Not written.");
      const inBar = (groove: Groove, by: number) =>
        groove.notes
          .map(({ voice, position: { num, den } }) => `${voice} ${(((num / den - by) % 4) + 4) % 4}`)
          .sort();
      expect(inBar(moved.round.groove, 0)).toEqual(inBar(as.round.groove, later));
      expect(moved.whole.notes).toHaveLength(as.whole.notes.length);
    },
  );

  test("that did not keep to its click has the bars that are heard in it", () => {
    const hits = played(ROCK, { bars: 8, tempoBpm: 112 });
    const written = writeDown(hits, { tempoBpm: 100, from: 0, way: plainClick(ROCK.metre) });
    expect(written.kind === "written" && written.round && strokes(written.round.groove)).toEqual(
      strokes(ROCK),
    );
    expect(written.kind === "written" && Math.round(written.whole.tempoBpm.low * 1.2)).toBe(112);
    expect(written.kind === "written" && written.whole.bars).toBe(8);
  });

  test.each([
    [[], "Nothing was played."],
    [played(ROCK, { bars: 1, tempoBpm: 100 }).slice(0, 2), "Too little was played"],
  ])("in which there is nothing to hear is told so (%#)", (hits, reason) => {
    const written = writeDown(hits, null);
    expect(written.kind === "failed" && written.reason).toContain(reason);
  });
});

describe("what is unsure", () => {
  const groove = parseGrid("groove: a\nname: A\nmetre: 4/4\ntempo: 60-90\nsnare | x.x. xxx. .... .... |");
  const moved = {
    kind: "place",
    bar: 1,
    beat: 1,
    notes: [1],
    alternatives: [{ position: { num: 1, den: 4 } }],
    chance: 0.6,
  } as const;
  const softer = {
    kind: "touch",
    bar: 1,
    beat: 1,
    notes: [0],
    alternatives: [{ dynamic: "ghost" }],
    chance: 0.6,
  } as const;
  const triplets = {
    kind: "grid",
    bar: 1,
    beat: 2,
    notes: [2, 3, 4],
    parts: 4,
    alternatives: [
      {
        parts: 3,
        positions: [
          { num: 1, den: 1 },
          { num: 4, den: 3 },
          { num: 5, den: 3 },
        ],
      },
    ],
    chance: 0.6,
  } as const;
  const unsure = [moved, softer, triplets];

  test("is written as it was, until it is said to be otherwise", () => {
    expect(answered(groove, unsure, new Set())).toEqual(groove);
    const other = answered(groove, unsure, new Set([0, 1, 2]));
    expect(other.notes.map(({ position, dynamic }) => `${position.num}/${position.den} ${dynamic}`)).toEqual([
      "0/1 ghost",
      "1/4 plain",
      "1/1 plain",
      "4/3 plain",
      "5/3 plain",
    ]);
    expect(inOrder(other.notes, other.voices)).toEqual(other.notes);
  });

  test("a stroke that is moved onto another of its voice is one with it", () => {
    const onto = { ...moved, alternatives: [{ position: { num: 0, den: 1 } }] };
    expect(answered(groove, [onto], new Set([0])).notes).toHaveLength(4);
  });

  test("is asked in words", () => {
    expect(questionOf(moved, groove)).toEqual({
      where: "Bar 1, beat 1: snare",
      asWritten: "beat 1 and",
      otherwise: "beat 1 e",
    });
    expect(questionOf(softer, groove)).toMatchObject({ asWritten: "plain", otherwise: "ghost" });
    expect(questionOf(triplets, groove)).toMatchObject({ asWritten: "sixteenths", otherwise: "triplets" });
  });
});
