import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { z } from "zod";
import { readSmf } from "../../engine/formats/index.ts";
import { normal, seededChance } from "../../engine/units/index.ts";
import { run, runJson, temporaryFolder } from "./program.ts";
import { type Strike, writeTake } from "./takeFiles.ts";

const folder = temporaryFolder();

const common = { time: z.number(), voice: z.string(), velocity: z.number(), note: z.int() };
const graded = z.object({
  take: z.string(),
  hits: z.array(
    z.discriminatedUnion("state", [
      z.strictObject({
        ...common,
        state: z.literal("matched"),
        targetIndex: z.int(),
        targetTime: z.number(),
        targetVoice: z.string(),
        offsetMs: z.number(),
        slippedMs: z.number().optional(),
      }),
      z.strictObject({
        ...common,
        state: z.literal("extra"),
        graceOf: z.int().optional(),
        surplus: z.literal(true).optional(),
      }),
      z.strictObject({ ...common, state: z.literal("retrigger") }),
    ]),
  ),
  missed: z.array(
    z.strictObject({
      targetIndex: z.int(),
      time: z.number(),
      voice: z.string(),
      skipped: z.literal(true).optional(),
    }),
  ),
  leanMs: z.number().nullable(),
  spreadMs: z.number().nullable(),
  driftPercent: z.number().nullable(),
  perBeat: z.array(
    z.strictObject({
      beat: z.int(),
      count: z.int(),
      leanMs: z.number().nullable(),
      spreadMs: z.number().nullable(),
    }),
  ),
  voiceAccuracy: z.number().nullable(),
  wander: z.object({
    kind: z.enum(["too-few", "clock-and-limbs", "model-does-not-hold"]),
    intervals: z.int(),
  }),
  swingByLimb: z.array(z.object({ limb: z.string(), ratio: z.number().nullable(), pairs: z.int() })),
  unisons: z.array(
    z.object({ limb: z.string(), against: z.string(), gapMs: z.number(), spreadMs: z.number().nullable() }),
  ),
  ornaments: z.array(z.object({ ornament: z.enum(["flam", "drag"]), gapMs: z.number().nullable() })),
  hiHat: z.object({ openAsClosed: z.int(), closedAsOpen: z.int() }).nullable(),
  dynamics: z.array(z.object({ voice: z.string(), plain: z.number().nullable() })),
  form: z.object({
    slips: z.array(z.object({ kind: z.string(), bar: z.int(), beat: z.int(), bars: z.int().optional() })),
  }),
  band: z.object({ level: z.string(), halfBandMs: z.number(), hearableMs: z.number() }),
  workOn: z.object({ kind: z.string() }),
  workOnPlace: z.object({ bar: z.int(), beat: z.int() }).nullable(),
});
type Graded = z.infer<typeof graded>;

function grade(args: readonly string[]): Graded {
  const { code, stderr, objects } = runJson(["grade", ...args]);
  expect({ code, stderr }).toEqual({ code: 0, stderr: "" });
  const [first] = z.array(graded).length(1).parse(objects);
  if (!first) throw new Error("Nothing was graded.");
  return first;
}

/** A groove of the stock as a file, and its strokes as the contract numbers them: by time, ties by key. */
function exported(id: string, bars: number, bpm: number) {
  const path = join(folder, `${id}-${bars}-${bpm}.mid`);
  const args = ["--groove", id, "--bars", String(bars), "--bpm", String(bpm), "--to", "mid", "--out", path];
  expect(run(["export", ...args]).code).toBe(0);
  const strokes = readSmf(readFileSync(path))
    .events.flatMap(({ time, message }): Strike[] =>
      message.kind === "note-on" ? [{ time, note: message.note, velocity: message.velocity }] : [],
    )
    .sort((a, b) => a.time - b.time || a.note - b.note);
  return { path, strokes };
}

let takes = 0;
function take(strikes: readonly Strike[]): string {
  takes += 1;
  return writeTake(join(folder, `take-${takes}.mid`), strikes);
}

function meanAndSd(values: readonly number[]) {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return { mean, sd: Math.sqrt(squares / (values.length - 1)) };
}

const BEATS_IN_BAR: Readonly<Record<string, number>> = { "jazz-waltz": 3 };

describe.each([
  { id: "rock-eighths", bpm: 100 },
  { id: "swing", bpm: 160 },
  { id: "bossa-nova", bpm: 130 },
  { id: "samba", bpm: 96 },
  { id: "jazz-waltz", bpm: 140 },
])("$id at $bpm against itself as a file", ({ id, bpm }) => {
  const { path, strokes } = exported(id, 8, bpm);

  test("played exactly: every stroke matched with its own, nothing missed, nothing to say", () => {
    const { hits, missed, leanMs, spreadMs, voiceAccuracy, driftPercent } = grade(["--target", path, path]);
    expect(missed).toEqual([]);
    expect(hits.map(({ state }) => state)).toEqual(strokes.map(() => "matched"));
    hits.forEach((hit, index) => {
      expect(hit).toMatchObject({ targetIndex: index, offsetMs: 0, note: strokes[index]?.note });
      expect(Math.abs(hit.time - (strokes[index]?.time ?? 0))).toBeLessThan(1e-4);
    });
    expect({ leanMs, spreadMs, voiceAccuracy, driftPercent }).toEqual({
      leanMs: 0,
      spreadMs: 0,
      voiceAccuracy: 1,
      driftPercent: 0,
    });
  });

  test.each([
    { leanMs: 12, sdMs: 8, seed: 1 },
    { leanMs: -15, sdMs: 10, seed: 2 },
    { leanMs: 0, sdMs: 15, seed: 3 },
  ])("lean $leanMs ms, spread $sdMs ms, strokes dropped, added and doubled", ({ leanMs, sdMs, seed }) => {
    const chance = seededChance(seed);
    // The first stroke is kept, and none may fall before time 0.
    const dropped = strokes.flatMap((_, index) => (index > 0 && index % 17 === 5 ? [index] : []));
    const slipsMs: number[] = [];
    const kept = strokes.flatMap((stroke, index): Strike[] => {
      if (dropped.includes(index)) return [];
      const slipMs = Math.max(leanMs + sdMs * normal(chance), -stroke.time * 1000);
      slipsMs.push(slipMs);
      return [{ ...stroke, time: stroke.time + slipMs / 1000 }];
    });
    // A cowbell is written nowhere: it answers nothing. A pad that rings on speaks again after 6 ms, softly.
    const added = [1.111, 3.333, 6.667].map((time): Strike => ({ time, note: 56, velocity: 80 }));
    const ringing = kept[10];
    if (!ringing) throw new Error("The take is too short.");
    const doubled: Strike = { ...ringing, time: ringing.time + 0.006, velocity: 15 };
    const report = grade(["--target", path, take([...kept, ...added, doubled])]);

    const count = (state: string) => report.hits.filter((hit) => hit.state === state).length;
    expect(report.hits.length).toBe(kept.length + 4);
    expect({ extra: count("extra"), matched: count("matched") + count("retrigger") }).toEqual({
      extra: 3,
      matched: kept.length + 1,
    });
    expect(report.hits.flatMap((hit) => (hit.state === "extra" ? [hit.voice] : []))).toEqual(
      new Array(3).fill("cowbell"),
    );
    expect(report.hits.flatMap((hit) => (hit.state === "retrigger" ? [hit.note] : []))).toEqual(
      ringing.velocity * 0.5 > 15 ? [ringing.note] : [],
    );
    expect(report.missed.map(({ targetIndex }) => targetIndex)).toEqual(dropped);
    for (const { targetIndex, time } of report.missed) {
      expect(Math.abs(time - (strokes[targetIndex]?.time ?? 0))).toBeLessThan(1e-4);
    }

    const truth = meanAndSd(slipsMs);
    // A tick of the take is 0.05 ms.
    expect(Math.abs((report.leanMs ?? 99) - truth.mean)).toBeLessThan(1);
    expect(Math.abs((report.spreadMs ?? 99) / truth.sd - 1)).toBeLessThan(0.08);
    const matched = report.hits.flatMap((hit) => (hit.state === "matched" ? [hit] : []));
    for (const { time, targetTime, offsetMs, targetIndex, note } of matched) {
      // Positive is behind.
      expect(Math.abs((time - targetTime) * 1000 - offsetMs)).toBeLessThan(0.2);
      expect(note).toBe(strokes[targetIndex]?.note);
    }
    const beats = BEATS_IN_BAR[id] ?? (id === "samba" ? 2 : 4);
    expect(report.perBeat.map(({ beat }) => beat)).toEqual(
      Array.from({ length: beats }, (_, beat) => beat + 1),
    );
    expect(report.perBeat.reduce((sum, beat) => sum + beat.count, 0)).toBe(matched.length);
    expect(report.voiceAccuracy).toBe(1);
  });
});

describe("one difference at a time, on a plain rock groove", () => {
  const { path, strokes } = exported("rock-eighths", 8, 100);

  test("another sound is matched with its stroke, and costs its share of the voices", () => {
    // Every snare of the first four bars on the rim, as a cross-stick.
    const moved = strokes.map((stroke) =>
      stroke.note === 38 && stroke.time < 9.6 ? { ...stroke, note: 37 } : stroke,
    );
    const { hits, missed, voiceAccuracy } = grade(["--target", path, take(moved)]);
    expect(missed).toEqual([]);
    const others = hits.flatMap((hit) =>
      hit.state === "matched" && hit.voice !== hit.targetVoice ? [[hit.voice, hit.targetVoice]] : [],
    );
    expect(others).toEqual(new Array(8).fill(["cross-stick", "snare"]));
    expect(voiceAccuracy).toBeCloseTo(1 - 8 / strokes.length, 4);
  });

  test.each([-2, 1.5])("a drift of %s in 100 is said", (percent) => {
    const drifting = strokes.map((stroke) => ({ ...stroke, time: stroke.time * (1 - percent / 100) }));
    const { driftPercent } = grade(["--target", path, take(drifting)]);
    expect(Math.abs((driftPercent ?? 99) - percent)).toBeLessThan(0.1);
  });

  test.each([
    { startSeconds: 3.21, tempo: 1 },
    { startSeconds: 0.4, tempo: 1.03 },
    { startSeconds: 7, tempo: 0.96 },
  ])(
    "with --free-start a take $startSeconds s late at $tempo of the tempo is found",
    ({ startSeconds, tempo }) => {
      const chance = seededChance(4);
      const late = strokes.map((stroke) => ({
        ...stroke,
        time: startSeconds + stroke.time / tempo + 0.006 * normal(chance),
      }));
      const { hits, missed, spreadMs } = grade(["--target", path, "--free-start", take(late)]);
      expect(missed).toEqual([]);
      expect(hits.map((hit) => (hit.state === "matched" ? hit.targetIndex : hit.state)).sort()).toEqual(
        strokes.map((_, index) => index).sort(),
      );
      expect(spreadMs).toBeLessThan(8);
      // Without it, the same take shares time 0 with the target, and does not answer it.
      const shared = grade(["--target", path, take(late)]);
      expect(shared.hits.some(({ state }) => state === "extra") || Math.abs(shared.leanMs ?? 0) > 20).toBe(
        true,
      );
    },
  );

  test("a bar skipped on the way is one slip of the form, and what follows is graded where it was played", () => {
    const { path: page, strokes: written } = exported("bossa-nova", 8, 120);
    const bar = 2;
    // From the second half of its two bars the page goes on a bar too soon.
    const skipping = written.flatMap((stroke) =>
      stroke.time < 3 * bar - 0.01
        ? [stroke]
        : stroke.time < 4 * bar - 0.01
          ? []
          : [{ ...stroke, time: stroke.time - bar }],
    );
    const report = grade(["--target", page, take(skipping)]);
    expect(report.form.slips).toMatchObject([{ kind: "bars-dropped", bars: 1 }]);
    expect(report.missed.filter(({ skipped }) => !skipped)).toEqual([]);
    expect(report.leanMs).toBeCloseTo(0, 0);
    const { lines } = run(["grade", "--target", page, take(skipping)]);
    expect(lines.some((line) => line.includes("A bar was skipped at bar"))).toBe(true);
  });

  test("the page's band and what can be heard go with the figures", () => {
    const { band, wander } = grade(["--target", path, path]);
    expect(band).toMatchObject({ level: "steady", halfBandMs: 30, hearableMs: 15 });
    expect(wander.kind).toBe("too-few");
  });

  test("--groove with --click grades from time 0", () => {
    const late = strokes.map((stroke) => ({ ...stroke, time: stroke.time + 0.011 }));
    const { missed, leanMs } = grade(["--groove", "rock-eighths", "--click", "100", take(late)]);
    expect(missed).toEqual([]);
    expect(leanMs).toBeCloseTo(11, 0);
  });

  test("--groove without a click finds tempo and start by listening", () => {
    const late = strokes.map((stroke) => ({ ...stroke, time: 2 + stroke.time / 1.07 }));
    const { hits, spreadMs } = grade(["--groove", "rock-eighths", take(late)]);
    expect(hits.every(({ state }) => state === "matched")).toBe(true);
    expect(spreadMs).toBeLessThan(3);
  });

  test("as text: lean, spread, what was as written, then words", () => {
    const late = strokes.map((stroke) => ({ ...stroke, time: stroke.time + 0.011 }));
    const { code, lines } = run(["grade", "--target", path, take(late)]);
    expect(code).toBe(0);
    expect(lines[1]).toBe("  lean 11.0 ms, spread 0.0 ms, 100 in 100 on the voice written.");
    expect(lines.slice(2, 6).map((line) => line.trim().slice(0, 7))).toEqual(
      [1, 2, 3, 4].map((beat) => `beat ${beat}:`),
    );
    expect(lines.length).toBeGreaterThan(6);
  });
});

test("the band is that of the level that is said; another word is refused with the levels there are", () => {
  const take = writeTake(join(folder, "level.mid"), [
    { time: 0, note: 36, velocity: 90 },
    { time: 0.6, note: 38, velocity: 90 },
    { time: 1.2, note: 36, velocity: 90 },
    { time: 1.8, note: 38, velocity: 90 },
  ]);
  const bandOf = (...level: readonly string[]) =>
    z
      .object({ band: z.object({ level: z.string(), halfBandMs: z.number() }) })
      .parse(runJson(["grade", "--groove", "rock-eighths", "--click", "100", ...level, take]).objects[0])
      .band;
  expect(bandOf()).toEqual({ level: "steady", halfBandMs: 30 });
  expect(bandOf("--level", "first-year")).toEqual({ level: "first-year", halfBandMs: 60 });
  const refused = run(["grade", "--groove", "rock-eighths", "--level", "expert", take]);
  expect(refused.code).not.toBe(0);
  expect(refused.stderr).toContain("first-year, second-year, steady, working");
});
