import { join } from "node:path";
import { expect, test } from "vitest";
import { rudimentById } from "../../engine/catalogue/index.ts";
import { seededChance } from "../../engine/units/index.ts";
import { perform, type TwoSurfaces } from "../engine/recall/twoSurfaces.ts";
import { run, runJson, temporaryFolder } from "./program.ts";
import { writeTake } from "./takeFiles.ts";

const folder = temporaryFolder();
const NOTES = { L: 45, R: 91 } as const;
const HANDS = ["--left", "45", "--right", "91"];

function takeOf(id: string, how: Partial<TwoSurfaces> = {}) {
  const rudiment = rudimentById(id);
  if (!rudiment) throw new Error(`There is no rudiment ${id}.`);
  const { strokes } = perform(rudiment, {
    tempoAt: () => 80,
    cycles: 8,
    spreadMs: 5,
    otherHand: 0,
    chance: seededChance(4),
    ...how,
  });
  const path = writeTake(
    join(folder, `${id}.mid`),
    strokes.map(({ time, hand, velocity }) => ({
      time,
      note: NOTES[hand],
      velocity: Math.round(velocity * 127),
    })),
  );
  return { path, strokes };
}

test("each strike with its hand, the hand written and what became of it; then the figures", () => {
  const { path, strokes } = takeOf("flam-tap", { otherHand: 0.05 });
  const { code, stderr, objects } = runJson(["sticking", "--rudiment", "flam-tap", ...HANDS, path]);
  expect({ code, stderr }).toEqual({ code: 0, stderr: "" });
  const other = { L: "R", R: "L" } as const;
  expect(objects).toMatchObject([
    {
      take: path,
      rudiment: "flam-tap",
      mirrored: false,
      strokes: strokes.map(({ hand, slip }) => ({
        hand,
        expectedHand: slip === "other hand" ? other[hand] : hand,
        state: slip === "other hand" ? "other hand" : "as written",
      })),
      evenness: { spreadMs: expect.any(Number) },
      accents: { written: 16, heard: 16, elsewhere: 0 },
      graces: { ornament: "flam", count: 16 },
      secondStrokes: null,
      tempo: { shape: "held" },
    },
  ]);
  expect(strokes.filter(({ slip }) => slip !== "none").length).toBeGreaterThan(0);
});

test("in words", () => {
  const { path } = takeOf("single-paradiddle");
  const { code, lines } = run(["sticking", "--rudiment", "16", ...HANDS, path]);
  expect(code).toBe(0);
  expect(lines[1]).toBe(
    "  Single Paradiddle: 64 of 64 strokes by the hand written, 0 by the other, 0 left out, 0 added.",
  );
});

test.each([
  [[], "Name at least one take, a MIDI file. See --help.\n"],
  [["x.mid"], "Name a rudiment with --rudiment, as in --rudiment flam-tap. See --help.\n"],
  [
    ["--rudiment", "flam-flam", "x.mid"],
    "--rudiment flam-flam: there is no such rudiment; catalogue --kind rudiment lists them. See --help.\n",
  ],
  [["--rudiment", "flam", "x.mid"], "--left is missing: say which note that hand strikes. See --help.\n"],
  [
    ["--rudiment", "flam", "--left", "38", "--right", "200", "x.mid"],
    "--right 200: this must be a MIDI note from 0 to 127. See --help.\n",
  ],
  [
    ["--rudiment", "flam", "--left", "38", "--right", "38", "x.mid"],
    "--left and --right are one note: on one surface it cannot be told which hand struck. Give each hand its own. See --help.\n",
  ],
])("%j is not understood", (args, stderr) => {
  expect(run(["sticking", ...args])).toMatchObject({ code: 2, stdout: "", stderr });
});

test("a take that says nothing of the hands is told, and the others are still done", () => {
  const { path } = takeOf("flam");
  const silent = writeTake(join(folder, "other.mid"), [{ time: 0, note: 38, velocity: 90 }]);
  const oneHand = writeTake(
    join(folder, "one-hand.mid"),
    [0, 1, 2, 3, 4].map((time) => ({ time, note: NOTES.L, velocity: 90 })),
  );
  const { code, lines, stderr } = run([
    ...["sticking", "--rudiment", "flam", ...HANDS],
    ...[silent, oneHand, join(folder, "missing.mid"), path],
  ]);
  expect(code).toBe(1);
  expect(stderr).toContain(`${silent}: The file holds no strike of note 45 or 91.`);
  expect(stderr).toContain(`${oneHand}: All strikes are on one of the two surfaces`);
  expect(stderr).toContain("missing.mid: There is no such file.");
  expect(lines[0]).toBe(path);
});
