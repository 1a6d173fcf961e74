import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, test } from "vitest";
import { z } from "zod";
import { FILLS, STYLES } from "../../engine/catalogue/index.ts";
import { readSmf } from "../../engine/formats/index.ts";
import { fillBars, type Groove, metreName, startsOnBeat, usualTempo } from "../../engine/score/index.ts";
import { run, runJson, temporaryFolder } from "./program.ts";

const folder = temporaryFolder();

function exported(id: string, ...more: readonly string[]) {
  const out = join(folder, `${id}${more.join("")}.mid`);
  const ran = runJson(["export", "--groove", id, ...more, "--to", "mid", "--out", out]);
  expect(ran, ran.stderr).toMatchObject({ code: 0, stderr: "" });
  return { ...ran, out };
}

const identified = z.object({
  take: z.string(),
  known: z.boolean(),
  candidates: z.array(z.object({ id: z.string(), confidence: z.number() })).min(1),
});
const grooves = STYLES.flatMap(({ variants }) => variants);

describe("a style at 8 bars is named by its own id, surely", () => {
  /** What each file is taken for; all of them in one run of the program. */
  const named = new Map<string, z.infer<typeof identified>>();
  const outs = new Map<string, string>();

  beforeAll(() => {
    for (const { id } of STYLES) outs.set(id, exported(id, "--bars", "8").out);
    const { objects } = runJson(["identify", ...outs.values()]);
    for (const found of z.array(identified).parse(objects)) named.set(found.take, found);
  }, 300_000);

  test.each(STYLES)("$id", ({ id }) => {
    const found = named.get(outs.get(id) ?? "");
    expect(found?.candidates[0]?.id).toBe(id);
    // Nearly the same strokes are a ballad in six, so that it is the first guess, but not a sure one.
    if (id !== "twelve-eight-blues") expect(found).toMatchObject({ known: true });
  });
});

/** Strokes with their graces: one before a flam, two before a drag. */
function strokesOf({ notes }: Pick<Groove, "notes">): number {
  const graces = { flam: 1, drag: 2 };
  return notes.reduce((sum, { ornament }) => sum + 1 + (ornament ? graces[ornament] : 0), 0);
}

/** The first variant of each kind that a file can differ in. */
const kinds = new Map(
  [...grooves].reverse().map((each) => {
    const ornaments = each.notes.some(({ ornament }) => ornament);
    return [`${metreName(each.metre)} ${each.feel.kind} ${each.bars} ${ornaments}`, each];
  }),
);

test.each([...kinds])("a groove is exported, as long and as quick as asked: %s", (_, groove) => {
  const { id, metre, bars } = groove;
  const { out, objects } = exported(id, "--bars", String(bars * 2), "--bpm", "101");
  expect(objects).toEqual([{ groove: id, bars: bars * 2, tempo: 101, out }]);
  const file = readSmf(readFileSync(out));
  expect(file.metres).toEqual([{ time: 0, metre }]);
  expect(file.events.filter(({ message }) => message.kind === "note-on").length).toBe(strokesOf(groove) * 2);
});

/** One of each metre, of one bar and of two, swung, with flams and drags. */
const FILLS_EXPORTED = new Set([
  "last-beat-eighths-in-three",
  "bar-in-six-eight",
  "swung-flams-and-kick",
  "sixteenths-with-kick-in-twelve-eight",
  "two-bars-in-six-eight",
]);

test.each(FILLS.filter(({ id }) => FILLS_EXPORTED.has(id)))(
  "the fill $id is written once, in its bars",
  (fill) => {
    const { out, objects } = exported(fill.id);
    expect(objects).toEqual([{ groove: fill.id, bars: fillBars(fill), tempo: usualTempo(fill), out }]);
    const file = readSmf(readFileSync(out));
    expect(file.metres).toEqual([{ time: 0, metre: fill.metre }]);
    const strokes = file.events.filter(({ message }) => message.kind === "note-on");
    expect(strokes.length).toBe(strokesOf(fill));
  },
);

test("a fill begins on its beat, after silence", () => {
  expect(FILLS.filter(({ id }) => FILLS_EXPORTED.has(id)).length).toBe(FILLS_EXPORTED.size);
  const fill = FILLS.find(({ id }) => id === "eighths-snare-floor");
  if (!fill) throw new Error("The stock has no such fill.");
  const { events } = readSmf(readFileSync(exported(fill.id, "--bpm", "60").out));
  const times = events.filter(({ message }) => message.kind === "note-on").map(({ time }) => time);
  expect(startsOnBeat(fill)).toBe(3);
  expect(times).toEqual([2, 2.5, 3, 3.5].map((time) => expect.closeTo(time, 2)));
});

test("a fill is not repeated", () => {
  const out = join(folder, "twice.mid");
  const { code, stdout, stderr } = run([
    ...["export", "--groove", "eighths-snare-floor", "--bars", "2", "--to", "mid", "--out", out],
  ]);
  expect({ code, stdout }).toEqual({ code: 2, stdout: "" });
  expect(stderr).toMatch("--bars 2: a fill is written once");
});

test("without bars and tempo it is the groove once, at its usual tempo", () => {
  const [groove] = grooves;
  if (!groove) throw new Error("There is no groove.");
  const { out, objects } = exported(groove.id);
  expect(objects).toEqual([{ groove: groove.id, bars: groove.bars, tempo: usualTempo(groove), out }]);
});

test("as text it says what was written", () => {
  const out = join(folder, "text.mid");
  const { code, stdout } = run([
    "export",
    "--groove",
    "swing",
    "--bars",
    "2",
    "--bpm",
    "180",
    "--to",
    "mid",
    "--out",
    out,
  ]);
  expect({ code, stdout }).toEqual({
    code: 0,
    stdout: `Swing: 2 bars at 180 a minute, written to ${out}.\n`,
  });
});

describe("a file that cannot be written", () => {
  test("is named on standard error, with exit code 1", () => {
    writeFileSync(join(folder, "a-file"), "");
    const out = join(folder, "a-file", "below.mid");
    const { code, stdout, stderr } = run(["export", "--groove", "swing", "--to", "mid", "--out", out]);
    expect({ code, stdout }).toEqual({ code: 1, stdout: "" });
    expect(stderr).toMatch(`${out}: the file cannot be written`);
  });
});
