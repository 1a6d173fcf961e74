import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { run, runJson, temporaryFolder } from "./program.ts";
import { type Strike, writeTake } from "./takeFiles.ts";

const folder = temporaryFolder();
const SNARE = 38;
const HIGH_TOM = 50;

const CALL: readonly Strike[] = [0, 0.5, 0.75, 1, 1.5].map((time) => ({ time, note: SNARE, velocity: 80 }));

function file(name: string, strikes: readonly Strike[]): string {
  return writeTake(join(folder, `${name}.mid`), strikes);
}

const call = file("call", CALL);
const echo = file(
  "echo",
  CALL.map((strike) => ({ ...strike, time: 2.3 + 1.1 * strike.time })),
);
const movedSound = file(
  "moved-sound",
  CALL.map((strike, at) => (at === 1 ? { ...strike, note: HIGH_TOM } : strike)),
);
const late = file(
  "late",
  CALL.map((strike, at) => (at === 3 ? { ...strike, time: 1.25 } : strike)),
);

function compare(answer: string, aim: string, ...more: readonly string[]): readonly string[] {
  return ["compare", "--call", call, "--answer", answer, "--aim", aim, ...more];
}

test("an echo, later and slower", () => {
  const { code, stderr, objects } = runJson(compare(echo, "echo"));
  expect({ code, stderr }).toEqual({ code: 0, stderr: "" });
  expect(objects).toEqual([
    {
      call,
      answer: echo,
      aim: "echo",
      holds: true,
      rhythm: { holds: true, offsetsMs: expect.any(Array), moved: [] },
      sound: { holds: true, moved: [] },
      touch: { moved: [] },
      missed: [],
      added: [],
      pairs: expect.any(Array),
      tempo: { start: 2.3, stretch: 1.1 },
      spreadMs: expect.closeTo(0, 0),
      distances: {
        pulsesPerBeat: 2,
        pulses: 8,
        hamming: 0,
        edit: 0,
        swap: 0,
        chronotonic: 0,
        editOfSounds: 0,
      },
      answered: null,
      words: "Rhythm holds; sound holds. An echo.",
    },
  ]);
});

test("one sound moved, and only that", () => {
  expect(runJson(compare(movedSound, "move-one")).objects).toMatchObject([
    {
      holds: true,
      rhythm: { holds: true },
      sound: { holds: false, moved: [{ index: 1, called: "snare", answered: "high-tom" }] },
      distances: { hamming: 0, editOfSounds: 1 },
    },
  ]);
  const { lines } = run(compare(movedSound, "echo"));
  expect(lines[1]).toBe("  Rhythm holds; the second sound moved from snare to high tom.");
});

test("a stroke an eighth late: rhythm moved, sound holds", () => {
  expect(runJson(compare(late, "echo")).objects).toMatchObject([
    {
      holds: false,
      rhythm: { holds: false, moved: [{ index: 3, offsetMs: expect.closeTo(250, 0) }] },
      sound: { holds: true },
      distances: { hamming: 2, swap: 1 },
    },
  ]);
});

test("a stroke a sixteenth late lies on finer pulses than the call", () => {
  const answer = file(
    "sixteenth",
    CALL.map((strike, at) => (at === 3 ? { ...strike, time: 1.125 } : strike)),
  );
  expect(runJson(compare(answer, "echo")).objects).toMatchObject([
    {
      rhythm: { holds: false },
      sound: { holds: true },
      distances: { pulsesPerBeat: 4, hamming: 2, swap: 1 },
    },
  ]);
});

test("a free answer is described", () => {
  const answer = file("free", [
    ...[0, 0.25, 0.5].map((time) => ({ time, note: HIGH_TOM, velocity: 80 })),
    { time: 2, note: 36, velocity: 90 },
  ]);
  expect(runJson(compare(answer, "answer")).objects).toMatchObject([
    {
      holds: null,
      answered: { lengthBars: 1, landsOnOne: true, spaceLeft: 0.5, density: 0.75, materialShared: 0 },
    },
  ]);
});

test("a phrase that was left open is finished: taken up where it stopped, landing on the one", () => {
  const open = file(
    "open",
    [0, 0.5, 1].map((time) => ({ time, note: 38, velocity: 80 })),
  );
  const answer = file("end", [
    ...[0, 0.5, 1, 1.5].map((time) => ({ time, note: HIGH_TOM, velocity: 80 })),
    { time: 2, note: 36, velocity: 90 },
  ]);
  expect(runJson(["compare", "--call", open, "--answer", answer, "--aim", "finish"]).objects).toMatchObject([
    {
      holds: true,
      finish: { leftOpenBeats: 2, takenUpBeats: 0, takenUp: true },
      answered: { lengthBars: 1, landsOnOne: true, density: 1 },
      words:
        "Taken up on the one, two beats after the call stopped. It fills its turn and lands on the one; 0 in 100 beats are " +
        "left empty, 1.0 strokes a beat; its material is new. The phrase is finished.",
    },
  ]);
});

describe("what is not understood", () => {
  test.each([
    [["--answer", "a.mid", "--aim", "echo"], "--call is missing: name a MIDI file. See --help.\n"],
    [["--call", "a.mid", "--aim", "echo"], "--answer is missing: name a MIDI file. See --help.\n"],
    [
      ["--call", "a.mid", "--answer", "b.mid"],
      "--aim is missing: say one of echo, move-one, finish, answer. See --help.\n",
    ],
    [
      ["--call", "a.mid", "--answer", "b.mid", "--aim", "shout"],
      "--aim shout: say one of echo, move-one, finish, answer. See --help.\n",
    ],
    [
      ["--call", "a.mid", "--answer", "b.mid", "--aim", "echo", "c.mid"],
      '"c.mid" is not understood here: name files with --call and --answer. See --help.\n',
    ],
  ])("%j", (args, stderr) => {
    expect(run(["compare", ...args])).toMatchObject({ code: 2, stdout: "", stderr });
  });
});

test("a file that cannot be read is told, and which", () => {
  const words = join(folder, "words.mid");
  writeFileSync(words, "words, not music");
  const { code, stderr, objects } = runJson(compare(words, "echo"));
  expect(code).toBe(1);
  expect(stderr).toContain("words.mid: This is not a Standard MIDI File");
  expect(objects).toMatchObject([{ aim: "echo", error: expect.stringContaining("words.mid") }]);
  expect(run(["compare", "--call", "none.mid", "--answer", call, "--aim", "echo"])).toMatchObject({
    code: 1,
    stderr: "none.mid: There is no such file.\n",
  });
});
