import { mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, test } from "vitest";
import { z } from "zod";
import { GENERAL_MIDI } from "../../cli/maps.ts";
import { FILLS, STYLES } from "../../engine/catalogue/index.ts";
import { readSmf, strikesOf } from "../../engine/formats/index.ts";
import { fillBars, type Groove, metreName, startsOnBeat, usualTempo } from "../../engine/score/index.ts";
import { seededChance } from "../../engine/units/index.ts";
import { schemaFaults } from "../engine/formats/musicXmlSchema.ts";
import { run, runJson, temporaryFolder } from "./program.ts";
import { strikesOfGroove, writeTake } from "./takeFiles.ts";

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

/** A CSV of RFC 4180 without quoted fields, as these tables are: its lines as objects. */
function tableOf(path: string): readonly Readonly<Record<string, string>>[] {
  const text = readFileSync(path, "utf8");
  expect(text.endsWith("\r\n")).toBe(true);
  expect(text.replaceAll("\r\n", "")).not.toMatch(/[\r\n]/);
  const [head = [], ...lines] = text
    .trimEnd()
    .split("\r\n")
    .map((line) => line.split(","));
  return lines.map((cells) => Object.fromEntries(head.map((name, at) => [name, cells[at] ?? ""])));
}

function styleGroove(id: string): Groove {
  const groove = grooves.find((known) => known.id === id);
  if (!groove) throw new Error(`There is no groove ${id}.`);
  return groove;
}

describe("a groove in every format", () => {
  const groove = styleGroove("rock-eighths");

  test("as MusicXML that the schema takes, with every stroke", async () => {
    const out = join(folder, "rock.musicxml");
    expect(run(["export", "--groove", groove.id, "--to", "musicxml", "--out", out]).code).toBe(0);
    const xml = readFileSync(out, "utf8");
    expect(await schemaFaults(new Map([["rock", xml]]))).toEqual([]);
    expect(xml.match(/<unpitched>/g)?.length).toBe(strokesOf(groove));
  });

  test("as a table with a line a written stroke", () => {
    const out = join(folder, "rock.csv");
    expect(run(["export", "--groove", groove.id, "--bars", "4", "--to", "csv", "--out", out]).code).toBe(0);
    const table = tableOf(out);
    expect(table.length).toBe((groove.notes.length * 4) / groove.bars);
    expect(table.at(-1)).toMatchObject({ metre: metreName(groove.metre), bar: "4" });
  });

  test("as a staff, a picture that is XML", () => {
    const out = join(folder, "rock.svg");
    expect(run(["export", "--groove", groove.id, "--to", "svg", "--out", out]).code).toBe(0);
    const svg = readFileSync(out, "utf8");
    expect(svg).toMatch(/^<svg xmlns="http:\/\/www\.w3\.org\/2000\/svg"[\s\S]*<\/svg>\n$/);
    // Every sign begins with a move of the pen.
    expect(svg.match(/M/g)?.length).toBeGreaterThan(groove.notes.length);
  });
});

describe("a take", () => {
  const groove = styleGroove("rock-eighths");
  const how = {
    tempoBpm: 104,
    bars: 8,
    leanMs: 3,
    spreadMs: 6,
    leftOut: 0,
    added: 0,
    chance: seededChance(4),
  };
  const strikes = strikesOfGroove(groove, how, 1);
  const take = writeTake(join(folder, "take, first.mid"), strikes);

  test("as a table is a line a hit, as it was played, with the place where it is written", () => {
    const out = join(folder, "take.csv");
    const { objects, code } = runJson(["export", "--take", take, "--to", "csv", "--out", out]);
    expect(code).toBe(0);
    expect(objects).toEqual([{ take, bars: 8, tempo: expect.closeTo(104, 0), out }]);
    const table = tableOf(out);
    expect(table.length).toBe(strikes.length);
    expect(table.map(({ key }) => Number(key)).sort()).toEqual(strikes.map(({ note }) => note).sort());
    expect(Number(table[0]?.seconds)).toBeCloseTo(1, 1);
    expect(table.filter(({ beat, bar }) => beat === "1" && bar === "8").length).toBeGreaterThan(0);
    expect(table.every(({ touch }) => ["ghost", "plain", "accent"].includes(touch ?? ""))).toBe(true);
  });

  test("as a MIDI file is what was written, on the grid, at the moments it was played", () => {
    const out = join(folder, "written.mid");
    expect(run(["export", "--take", take, "--to", "mid", "--out", out]).code).toBe(0);
    const file = readSmf(readFileSync(out));
    const hits = strikesOf(file, GENERAL_MIDI);
    expect(hits.length).toBe(strikes.length);
    expect(file.metres).toEqual([{ time: 0, metre: groove.metre }]);
    // A spread of 6 ms is taken out; lean and drift of a bar are not much.
    const played = [...strikes].sort((a, b) => a.time - b.time || a.note - b.note);
    const first = played[0]?.time ?? 0;
    const near = hits.filter(({ time }) => played.some((one) => Math.abs(one.time - first - time) < 0.04));
    expect(near.length).toBe(hits.length);
  });

  test("at another tempo and cut to so many bars", () => {
    const out = join(folder, "short.mid");
    const { objects } = runJson([
      "export",
      "--take",
      take,
      "--bars",
      "2",
      "--bpm",
      "80",
      "--to",
      "mid",
      "--out",
      out,
    ]);
    expect(objects).toEqual([{ take, bars: 2, tempo: 80, out }]);
    const file = readSmf(readFileSync(out));
    expect(file.tempos).toEqual([{ time: 0, tempoBpm: expect.closeTo(80, 3) }]);
    expect(strikesOf(file, GENERAL_MIDI).length).toBe((groove.notes.length * 2) / groove.bars);
  });

  test("as MusicXML that the schema takes, and as a staff", async () => {
    const out = join(folder, "take.musicxml");
    expect(run(["export", "--take", take, "--to", "musicxml", "--out", out]).code).toBe(0);
    const xml = readFileSync(out, "utf8");
    expect(await schemaFaults(new Map([["take", xml]]))).toEqual([]);
    expect(xml.match(/<unpitched>/g)?.length).toBe(strikes.length);
    expect(xml).toContain("<work-title>take, first</work-title>");
    const svg = join(folder, "take.svg");
    expect(run(["export", "--take", take, "--to", "svg", "--out", svg]).code).toBe(0);
    expect(readFileSync(svg, "utf8")).toContain("<title>take, first, 4/4</title>");
  });

  test("of three strokes is a table without bars, and nothing else", () => {
    const few = writeTake(join(folder, "few.mid"), strikes.slice(0, 3));
    const out = join(folder, "few.csv");
    const table = run(["export", "--take", few, "--to", "csv", "--out", out]);
    expect(table.code).toBe(0);
    expect(table.stderr).toMatch("Too little was played to hear bars in it");
    expect(tableOf(out).map(({ bar, touch }) => [bar, touch])).toEqual(new Array(3).fill(["", ""]));
    const staff = run(["export", "--take", few, "--to", "svg", "--out", join(folder, "few.svg")]);
    expect({ code: staff.code, stdout: staff.stdout }).toEqual({ code: 1, stdout: "" });
    expect(staff.stderr).toMatch("Too little was played to hear a groove in it.");
    expect(readdirSync(folder)).not.toContain("few.svg");
  });

  test("of keys that no drum has is a table of them, and says so", () => {
    const keys = Array.from({ length: 40 }, (_, at) => ({ time: at / 4, note: 96, velocity: 90 }));
    const out = join(folder, "keys.csv");
    const take = writeTake(join(folder, "keys.mid"), keys);
    const table = run(["export", "--take", take, "--to", "csv", "--out", out]);
    expect(table.code).toBe(0);
    expect(table.stderr).toMatch(
      "The map names none of the keys that were struck; name another with --map: bar",
    );
    expect(tableOf(out)).toHaveLength(40);
  });

  test("that is no MIDI file is said", () => {
    const text = join(folder, "text.txt");
    writeFileSync(text, "not music");
    const { code, stderr } = run(["export", "--take", text, "--to", "csv", "--out", join(folder, "no.csv")]);
    expect(code).toBe(1);
    expect(stderr).toMatch("not a Standard MIDI File");
  });
});

test.each([
  {
    fault: "both a groove and a take",
    args: ["--groove", "swing", "--take", "a.mid", "--to", "mid"],
    says: "either --groove ID or --take FILE.mid",
  },
  { fault: "neither", args: ["--to", "mid"], says: "either --groove ID or --take FILE.mid" },
  {
    fault: "a format that is none",
    args: ["--groove", "swing", "--to", "pdf"],
    says: "--to pdf: say one of mid, musicxml, csv, svg.",
  },
  {
    fault: "a map with a groove",
    args: ["--groove", "swing", "--map", "general-midi-1", "--to", "mid"],
    says: "leave it out with --groove",
  },
])("$fault is not understood", ({ args, says }) => {
  const { code, stderr } = run(["export", ...args, "--out", join(folder, "never")]);
  expect(code).toBe(2);
  expect(stderr).toMatch(says);
  expect(readdirSync(folder)).not.toContain("never");
});

describe("a file that cannot be written", () => {
  test("leaves what was there, and nothing unfinished", () => {
    const out = join(folder, "is-a-folder");
    mkdirSync(out);
    writeFileSync(join(out, "kept"), "kept");
    const { code, stderr } = run(["export", "--groove", "swing", "--to", "svg", "--out", out]);
    expect(code).toBe(1);
    expect(stderr).toMatch(`${out}: the file cannot be written`);
    expect(readFileSync(join(out, "kept"), "utf8")).toBe("kept");
    expect(readdirSync(folder).filter((name) => name.includes("unfinished"))).toEqual([]);
  });

  test("is named on standard error, with exit code 1", () => {
    writeFileSync(join(folder, "a-file"), "");
    const out = join(folder, "a-file", "below.mid");
    const { code, stdout, stderr } = run(["export", "--groove", "swing", "--to", "mid", "--out", out]);
    expect({ code, stdout }).toEqual({ code: 1, stdout: "" });
    expect(stderr).toMatch(`${out}: the file cannot be written`);
  });
});
