import { mkdirSync, writeFileSync } from "node:fs";
import { basename, join, resolve } from "node:path";
import { describe, expect, test } from "vitest";
import { z } from "zod";
import { grooveById, STYLES } from "../../engine/catalogue/index.ts";
import { parseGrid } from "../../engine/score/index.ts";
import { seededChance } from "../../engine/units/index.ts";
import { withHabit } from "../engine/listening/habit.ts";
import { run, runJson, temporaryFolder } from "./program.ts";
import { type Strike, strikesOfGroove, writeTake } from "./takeFiles.ts";

const folder = temporaryFolder();

const identified = z.strictObject({
  take: z.string(),
  known: z.boolean(),
  candidates: z
    .array(z.strictObject({ id: z.string(), name: z.string(), confidence: z.number().min(0).max(1) }))
    .min(1),
  tempo: z.number(),
  metre: z.string().regex(/^\d+\/\d+$/),
  downbeat: z.number(),
  why: z.array(z.string().endsWith(".")).max(2),
  swing: z.number().nullable(),
  fills: z.array(
    z.strictObject({
      from: z.number(),
      to: z.number(),
      id: z.string().optional(),
      name: z.string().optional(),
    }),
  ),
  countIn: z.strictObject({ from: z.number(), to: z.number(), strokes: z.int() }).nullable(),
});

function played(id: string, seed: number, tempoBpm: number, bars = 8): readonly Strike[] {
  const groove = grooveById(id);
  if (!groove) throw new Error(`The stock has no ${id}.`);
  const chance = seededChance(seed);
  return strikesOfGroove(
    groove,
    { tempoBpm, bars, leanMs: -5, spreadMs: 10, leftOut: 0.03, added: 0.02, chance },
    0.8,
  );
}

function take(id: string, seed: number, tempoBpm: number): string {
  return writeTake(join(folder, `${id}-${seed}.mid`), played(id, seed, tempoBpm));
}

/** Two toms across the bar, nothing else: no groove of the stock. */
const TOMS = parseGrid(
  "groove: toms\nname: Toms\nmetre: 4/4\ntempo: 60-200\nhigh-tom | x..x..x...x...x. |\nfloor-tom | .x..x..x.x..x..x |",
);

describe("the catalogue", () => {
  const takes = [
    { id: "rock-eighths", path: take("rock-eighths", 1, 112), tempoBpm: 112 },
    { id: "bossa-nova", path: take("bossa-nova", 2, 128), tempoBpm: 128 },
    { id: "swing", path: take("swing", 3, 170), tempoBpm: 170 },
    { id: "samba", path: take("samba", 4, 100), tempoBpm: 100 },
  ];

  test("one object a take, in the order given, candidates best first", () => {
    const { code, stderr, objects } = runJson(["identify", ...takes.map(({ path }) => path)]);
    expect({ code, stderr }).toEqual({ code: 0, stderr: "" });
    const found = z.array(identified).parse(objects);
    expect(found.map((each) => each.take)).toEqual(takes.map(({ path }) => path));
    expect(found.map((each) => each.candidates[0]?.id)).toEqual(takes.map(({ id }) => id));
    found.forEach(({ candidates, known, tempo }, index) => {
      expect(known).toBe(true);
      expect(candidates.length).toBe(STYLES.length);
      const confidences = candidates.map(({ confidence }) => confidence);
      expect([...confidences].sort((a, b) => b - a)).toEqual(confidences);
      expect(Math.abs(tempo / (takes[index]?.tempoBpm ?? 0) - 1)).toBeLessThan(0.01);
    });
  });

  test("with a click the tempo is the click's, and the groove the same", () => {
    // The click sounds from time 0: so does this take.
    const groove = grooveById("bossa-nova");
    if (!groove) throw new Error("The stock has no bossa-nova.");
    const how = {
      tempoBpm: 132,
      bars: 8,
      leanMs: 6,
      spreadMs: 9,
      leftOut: 0,
      added: 0,
      chance: seededChance(6),
    };
    const path = writeTake(join(folder, "clicked.mid"), strikesOfGroove(groove, how));
    const { objects } = runJson(["identify", "--click", "132", path]);
    const [found] = z.array(identified).length(1).parse(objects);
    expect(found?.candidates[0]?.id).toBe("bossa-nova");
    expect(found?.tempo).toBeCloseTo(132, 0);
    // With a lean of 6 ms, the first downbeat or one a whole bar after it.
    const bars = (found?.downbeat ?? 0.5) / ((4 * 60) / 132);
    expect(Math.abs(bars - Math.round(bars))).toBeLessThan(0.02);
  });

  test("a groove it does not know: candidates all the same, and known is false", () => {
    const how = {
      tempoBpm: 97,
      bars: 8,
      leanMs: 0,
      spreadMs: 6,
      leftOut: 0,
      added: 0,
      chance: seededChance(8),
    };
    const path = writeTake(join(folder, "toms.mid"), strikesOfGroove(TOMS, how));
    const { code, objects } = runJson(["identify", path]);
    expect(code).toBe(0);
    const [found] = z.array(identified).length(1).parse(objects);
    expect(found?.known).toBe(false);
    expect(found?.candidates.length).toBe(STYLES.length);
    expect(found?.why[0]).toMatch(/^None I know; nearest is [a-z].*, but .+\.$/);
    expect(run(["identify", path]).lines[1]).toBe(`  ${found?.why[0]}`);
  });

  test("as text: the name and how sure", () => {
    const { lines } = run(["identify", take("merengue", 1, 140)]);
    expect(lines[0]).toMatch(/merengue-1\.mid$/);
    expect(lines[1]).toMatch(/^ {2}Merengue: I am (sure|nearly sure|fairly sure)\.$/);
  });

  // Groove MIDI Dataset (Gillick et al., ICML 2019; CC BY 4.0), the takes whose style is in the stock.
  test.each([
    { file: "77_jazz-mediumfast_180_beat_4-4.mid", ids: ["swing"] },
    { file: "9_latin-merengue_158_beat_4-4.mid", ids: ["merengue"] },
    { file: "184_reggae_78_beat_4-4.mid", ids: ["one-drop"] },
    // Half-time at 140 and rock sixteenths at 70 are the same strokes.
    { file: "202_rock-halftime_140_beat_4-4.mid", ids: ["half-time", "rock-sixteenths"] },
  ])("a person's take: $file is among the first three as $ids", ({ file, ids }) => {
    const path = resolve(import.meta.dirname, "../fixtures/groove-midi", file);
    const [found] = z.array(identified).parse(runJson(["identify", path]).objects);
    const first = found?.candidates.slice(0, 3).map((candidate) => candidate.id) ?? [];
    expect(first.some((id) => ids.includes(id))).toBe(true);
  });
});

describe("a shelf", () => {
  const shelf = join(folder, "shelf");
  writeTake(join(shelf, "monday-tune.mid"), played("rock-sixteenths", 11, 84));
  writeTake(join(shelf, "the-three.MIDI"), played("jazz-waltz", 12, 130));
  for (const seed of [13, 14, 15]) {
    writeTake(join(shelf, "slow-one", `take-${seed}.mid`), played("half-time-shuffle", seed, 90));
  }
  writeFileSync(join(shelf, "notes.txt"), "no groove");
  mkdirSync(join(shelf, "empty-folder"));

  test("each file is a groove named by its file, each folder one with several takes", () => {
    const takes = [
      writeTake(join(folder, "a.mid"), played("half-time-shuffle", 21, 97)),
      writeTake(join(folder, "b.mid"), played("rock-sixteenths", 22, 78)),
      writeTake(join(folder, "c.mid"), played("jazz-waltz", 23, 145)),
    ];
    const { code, stderr, objects } = runJson(["identify", "--shelf", shelf, ...takes]);
    expect({ code, stderr }).toEqual({ code: 0, stderr: "" });
    const found = z.array(identified).parse(objects);
    expect(found.map(({ candidates }) => candidates[0]?.id)).toEqual([
      "slow-one",
      "monday-tune",
      "the-three",
    ]);
    for (const { candidates } of found) {
      expect(candidates.map(({ id }) => id).sort()).toEqual(["monday-tune", "slow-one", "the-three"]);
    }
  });

  test("a file and a folder of one name are one groove", () => {
    const both = join(folder, "both");
    writeTake(join(both, "waltz.mid"), played("jazz-waltz", 51, 120));
    writeTake(join(both, "waltz", "again.mid"), played("jazz-waltz", 52, 150));
    writeTake(join(both, "rock.mid"), played("rock-eighths", 53, 100));
    const path = writeTake(join(folder, "e.mid"), played("jazz-waltz", 54, 135));
    const [found] = z.array(identified).parse(runJson(["identify", "--shelf", both, path]).objects);
    expect(found?.candidates.map(({ id }) => id)).toEqual(["waltz", "rock"]);
  });

  test("a reference that is broken is said, the rest is used, and the exit code is 1", () => {
    const broken = join(folder, "broken-shelf");
    writeTake(join(broken, "good.mid"), played("rock-eighths", 31, 100));
    writeFileSync(join(broken, "bad.mid"), "no music");
    const path = writeTake(join(folder, "d.mid"), played("rock-eighths", 32, 110));
    const { code, stderr, objects } = runJson(["identify", "--shelf", broken, path]);
    expect(code).toBe(1);
    expect(stderr).toContain(`${join(broken, "bad.mid")}: This is not a Standard MIDI File`);
    expect(z.array(identified).parse(objects)[0]?.candidates[0]?.id).toBe("good");
  });

  test("a shelf with nothing on it is not understood", () => {
    const { code, stderr } = run(["identify", "--shelf", join(shelf, "empty-folder"), "a.mid"]);
    expect(code).toBe(2);
    expect(stderr).toContain("no groove in it can be used");
  });
});

describe("the player's own takes", () => {
  const own = join(folder, "own");
  const toms = (seed: number): readonly Strike[] =>
    strikesOfGroove(TOMS, {
      tempoBpm: 97,
      bars: 8,
      leanMs: 0,
      spreadMs: 6,
      leftOut: 0,
      added: 0,
      chance: seededChance(seed),
    });
  const habit = (seed: number): readonly Strike[] => {
    const groove = grooveById("rock-eighths");
    if (!groove) throw new Error("The stock has no rock-eighths.");
    const how = { tempoBpm: 100, bars: 8, leanMs: 0, spreadMs: 8, leftOut: 0, added: 0 };
    return strikesOfGroove(withHabit(groove, seededChance(7)), { ...how, chance: seededChance(seed) });
  };
  writeTake(join(own, "rock-eighths", "monday.mid"), habit(61));
  writeTake(join(own, "rock-eighths", "tuesday.mid"), habit(62));
  writeTake(join(own, "toms.mid"), toms(63));
  const next = writeTake(join(folder, "wednesday.mid"), habit(64));
  const identify = (...args: readonly string[]) => {
    const { code, stderr, objects } = runJson(["identify", ...args]);
    expect({ code, stderr }).toEqual({ code: 0, stderr: "" });
    return z.array(identified).parse(objects);
  };

  test("a folder named as a style joins it, a file with a name of its own is a groove more", () => {
    const takes = [next, writeTake(join(folder, "toms-again.mid"), toms(65))];
    const [rock, other] = identify("--own", own, ...takes);
    const [before] = identify(next);
    for (const found of [rock, other]) expect(found?.candidates.length).toBe(STYLES.length + 1);
    expect(rock?.candidates[0]).toMatchObject({ id: "rock-eighths", name: "Rock eighths" });
    expect(rock?.candidates[0]?.confidence).not.toBe(before?.candidates[0]?.confidence);
    expect(other?.known).toBe(true);
    expect(other?.candidates[0]).toMatchObject({ id: "toms", name: "toms" });
  });

  test("they join the grooves of a shelf", () => {
    const tunes = join(folder, "tunes");
    writeTake(join(tunes, "rock-eighths.mid"), played("rock-eighths", 66, 100));
    writeTake(join(tunes, "waltz.mid"), played("jazz-waltz", 67, 120));
    const [found] = identify("--shelf", tunes, "--own", own, next);
    expect(found?.candidates.map(({ id }) => id).sort()).toEqual(["rock-eighths", "toms", "waltz"]);
    expect(found?.candidates[0]?.id).toBe("rock-eighths");
  });

  test("while it is played, too", () => {
    const input = toms(68)
      .map(({ time, note, velocity }) => JSON.stringify({ time, note, velocity }))
      .join("\n");
    const { code, lines } = run(["identify", "--stream", "--own", own], [], input);
    expect(code).toBe(0);
    const last: unknown = JSON.parse(lines.at(-1) ?? "null");
    expect(last).toMatchObject({
      final: true,
      candidates: expect.arrayContaining([expect.objectContaining({ id: "toms" })]),
    });
  });

  test("one that is broken or says nothing is said, the rest is used, and the exit code is 1", () => {
    const faulty = join(folder, "faulty-own");
    writeTake(join(faulty, "rock-eighths", "good.mid"), habit(69));
    writeFileSync(join(faulty, "rock-eighths", "bad.mid"), "no music");
    writeTake(join(faulty, "swing.mid"), [{ time: 1, note: 38, velocity: 90 }]);
    const { code, stderr, objects } = runJson(["identify", "--own", faulty, next]);
    expect(code).toBe(1);
    expect(stderr.trimEnd().split("\n")).toEqual([
      expect.stringContaining(`${join(faulty, "rock-eighths", "bad.mid")}: This is not a Standard MIDI File`),
      `${join(faulty, "swing")}: no pulse can be heard in its takes; it is left out.`,
    ]);
    expect(z.array(identified).parse(objects)[0]?.candidates.length).toBe(STYLES.length);
  });
});

describe("takes that cannot be read", () => {
  const good = take("rock-eighths", 41, 100);
  const whole = writeTake(join(folder, "whole.mid"), played("swing", 42, 150));
  const faults = [
    { name: "empty.mid", bytes: Buffer.alloc(0), says: "The file is empty." },
    { name: "words.mid", bytes: Buffer.from("not music at all"), says: "This is not a Standard MIDI File" },
    {
      name: "header.mid",
      bytes: Buffer.from("4d546864000000060001000001e0", "hex"),
      says: "The file holds no track.",
    },
    {
      name: "silent.mid",
      bytes: Buffer.from("4d546864000000060000000101e04d54726b0000000400ff2f00", "hex"),
      says: "The file holds no strike.",
    },
    {
      name: "cut.mid",
      bytes: Buffer.from("4d546864000000060000000101e04d54726b000000400099", "hex"),
      says: "The file is cut off",
    },
  ].map(({ name, bytes, says }) => {
    const path = join(folder, name);
    writeFileSync(path, bytes);
    return { path, says };
  });
  const missing = { path: join(folder, "no-such.mid"), says: "There is no such file." };
  const directory = { path: folder, says: "This is a folder, not a MIDI file." };
  const bad = [...faults, missing, directory];

  test.each(["identify", "listen", "grade"])("%s names each, does the others, and ends with 1", (command) => {
    const takes = [good, ...bad.map(({ path }) => path), whole];
    const options = command === "grade" ? ["--groove", "rock-eighths"] : [];
    const { code, stderr, objects } = runJson([command, ...options, ...takes]);
    expect(code).toBe(1);
    const complaints = stderr.trimEnd().split("\n");
    expect(complaints.length).toBe(bad.length);
    bad.forEach(({ path, says }, index) => {
      expect(complaints[index]).toMatch(`${path}: ${says}`);
      expect(objects[index + 1]).toEqual({ take: path, error: expect.stringContaining(says) });
    });
    expect(objects.length).toBe(takes.length);
    for (const object of [objects[0], objects.at(-1)]) expect(object).not.toHaveProperty("error");
  });

  test("without --json the others are still on standard output", () => {
    const { code, lines, stderr } = run(["listen", missing.path, good]);
    expect({ code, stderr }).toEqual({ code: 1, stderr: `${missing.path}: ${missing.says}\n` });
    expect(lines.map((line) => basename(line))[0]).toBe(basename(good));
  });
});
