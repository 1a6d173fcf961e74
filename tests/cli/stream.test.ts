import { spawn } from "node:child_process";
import { once } from "node:events";
import { createInterface } from "node:readline";
import { describe, expect, test } from "vitest";
import { z } from "zod";
import { grooveById } from "../../engine/catalogue/index.ts";
import { seededChance } from "../../engine/units/index.ts";
import { PROGRAM, run } from "./program.ts";
import { type Strike, strikesOfGroove } from "./takeFiles.ts";

const hearing = z.strictObject({
  time: z.number(),
  known: z.boolean(),
  candidates: z.array(z.strictObject({ id: z.string(), name: z.string(), confidence: z.number() })),
  tempo: z.number().nullable(),
  metre: z.string().nullable(),
  downbeat: z.number().nullable(),
  why: z.array(z.string()),
  swing: z.number().nullable(),
  fills: z.array(z.looseObject({ from: z.number(), to: z.number() })),
  countIn: z.looseObject({ strokes: z.int() }).nullable(),
  final: z.literal(true).optional(),
});
const badLine = z.strictObject({ line: z.int(), error: z.string() });

const TEMPO_BPM = 100;

function strikes(id: string, bars: number): readonly Strike[] {
  const groove = grooveById(id);
  if (!groove) throw new Error(`The stock has no ${id}.`);
  return strikesOfGroove(groove, {
    ...{ tempoBpm: TEMPO_BPM, bars, leanMs: 0, spreadMs: 6, leftOut: 0, added: 0 },
    chance: seededChance(4),
  });
}

function lineOf({ time, note, velocity }: Strike): string {
  return JSON.stringify({ time, note, velocity });
}

function stream(lines: readonly string[], ...more: readonly string[]) {
  const ran = run(["identify", "--stream", ...more], [], `${lines.join("\n")}\n`);
  return { ...ran, objects: ran.lines.map((line): unknown => JSON.parse(line)) };
}

describe("a hearing a beat", () => {
  const rock = strikes("rock-eighths", 12);
  const ran = stream(rock.map(lineOf));
  const heard = z.array(hearing).parse(ran.objects);

  test("is said, and a last one that is marked; the groove is named in it", () => {
    expect({ code: ran.code, stderr: ran.stderr }).toEqual({ code: 0, stderr: "" });
    expect(heard.filter(({ final }) => final).length).toBe(1);
    const last = heard.at(-1);
    expect(last?.final).toBe(true);
    expect(last).toMatchObject({ known: true, metre: "4/4" });
    expect(last?.candidates[0]?.id).toBe("rock-eighths");
    expect(last?.tempo).toBeCloseTo(TEMPO_BPM, -0.5);
    expect(last?.why[0]).toMatch(/^Rock eighths rather than /);
    expect(last?.time).toBeCloseTo(rock.at(-1)?.time ?? 0, 3);
  });

  test("on the first hit at or after each beat once there is a pulse", () => {
    const beat = 60 / TEMPO_BPM;
    const settled = heard
      .filter(({ time, final }) => time > 8 * beat && !final)
      .map(({ time }) => time / beat);
    expect(settled.length).toBeGreaterThan(35);
    for (const [index, at] of settled.entries()) {
      expect(Math.abs(at - Math.round(at))).toBeLessThan(0.06);
      if (index > 0) expect(Math.round(at) - Math.round(settled[index - 1] ?? 0)).toBe(1);
    }
  });

  test("and before there is one no more than every half second", () => {
    const before = heard.filter(({ tempo }) => tempo === null).map(({ time }) => time);
    expect(before.length).toBeGreaterThan(0);
    before.slice(1).forEach((time, index) => {
      expect(time - (before[index] ?? 0)).toBeGreaterThanOrEqual(0.5 - 1e-9);
    });
  });

  test("hits by their voice are heard as those by their note", () => {
    const voices = { 36: "kick", 38: "snare", 42: "hi-hat-closed" } as const;
    const named = z.record(z.string(), z.string()).parse(voices);
    const byVoice = rock.map(({ time, note, velocity }) =>
      JSON.stringify({ time, voice: named[note], velocity }),
    );
    expect(new Set(rock.map(({ note }) => note))).toEqual(new Set([36, 38, 42]));
    expect(stream(byVoice).objects).toEqual(ran.objects);
  });
});

test.each([
  ["not JSON", "this is not JSON"],
  ["7", "a hit must be an object"],
  ['{"time":1,"note":38}', "velocity must be a whole number from 1 to 127"],
  ['{"time":1,"note":38,"velocity":0.5}', "velocity must be a whole number from 1 to 127"],
  ['{"time":1,"note":38,"velocity":0}', "with 0 a key is let go"],
  ['{"time":1,"note":38,"velocity":128}', "velocity must be from 1 to 127"],
  ['{"time":1,"velocity":90}', "either a note or a voice"],
  ['{"time":1,"note":38,"voice":"snare","velocity":90}', "either a note or a voice"],
  ['{"time":1,"voice":"gong","velocity":90}', "voice must be one of kick, snare"],
  ['{"time":1,"note":128,"velocity":90}', "note must be from 0 to 127"],
  ['{"time":"1","note":38,"velocity":90}', "time must be a number of seconds"],
  ['{"time":-1,"note":38,"velocity":90}', "time must not be negative"],
  ['{"time":0.2,"note":38,"velocity":90}', "time 0.2 is before 0.5"],
])("a line that is no hit, %s: it is said, the rest is heard, exit code 1", (line, says) => {
  const good = { time: 0.5, note: 36, velocity: 90 };
  const { code, stderr, objects } = stream([lineOf(good), "", line, lineOf({ ...good, time: 1 })]);
  expect(code).toBe(1);
  expect(stderr).toMatch(/^line 3: [^\n]+\.\n$/);
  expect(stderr).toContain(says);
  const errors = objects.flatMap((object) => badLine.safeParse(object).data ?? []);
  expect(errors).toEqual([{ line: 3, error: expect.stringContaining(says) }]);
  expect(hearing.parse(objects.at(-1))).toMatchObject({ time: 1, final: true, known: false });
});

test("nothing at all: one last hearing of nothing", () => {
  const { code, objects } = stream([]);
  expect(code).toBe(0);
  expect(objects).toEqual([
    {
      ...{ time: 0, known: false, candidates: [], tempo: null, metre: null, downbeat: null },
      ...{ why: [], swing: null, fills: [], countIn: null, final: true },
    },
  ]);
});

test("answers come while the hits still do, and a reader who closes the pipe is no error", async () => {
  const child = spawn(process.execPath, [PROGRAM, "identify", "--stream"]);
  let complaints = "";
  child.stderr.on("data", (data) => {
    complaints += String(data);
  });
  // Writing on after the program has gone is what this test does.
  child.stdin.on("error", () => undefined);
  const hits = strikes("rock-eighths", 16).map(lineOf);
  child.stdin.write(`${hits.slice(0, 60).join("\n")}\n`);
  const lines = createInterface({ input: child.stdout });
  const [first] = await once(lines, "line");
  expect(hearing.parse(JSON.parse(String(first))).time).toBeCloseTo(0, 1);
  const exited = once(child, "exit");
  child.stdout.destroy();
  child.stdin.write(`${hits.slice(60).join("\n")}\n`);
  const [code] = await exited;
  expect({ code, complaints }).toEqual({ code: 0, complaints: "" });
});
