import { readdirSync } from "node:fs";
import { basename, join, resolve } from "node:path";
import { describe, expect, test } from "vitest";
import { z } from "zod";
import { grooveById } from "../../engine/catalogue/index.ts";
import { seededChance } from "../../engine/units/index.ts";
import { run, runJson, temporaryFolder } from "./program.ts";
import { strikesOfGroove, writeTake } from "./takeFiles.ts";

const folder = temporaryFolder();

const heard = z.strictObject({
  take: z.string(),
  tempo: z.number(),
  metre: z.string().regex(/^\d+\/\d+$/),
  beats: z.array(z.number()),
  downbeats: z.array(z.number()),
  confidence: z.number().min(0).max(1),
});

const START_SECONDS = 1.37;

/** Sixteen bars, played with a little lean and spread, some time after the start of the file. */
function take(id: string, tempoBpm: number): string {
  const groove = grooveById(id);
  if (!groove) throw new Error(`The stock has no ${id}.`);
  const how = {
    tempoBpm,
    bars: 16,
    leanMs: 4,
    spreadMs: 8,
    leftOut: 0.02,
    added: 0.01,
    chance: seededChance(5),
  };
  return writeTake(join(folder, `${id}-${tempoBpm}.mid`), strikesOfGroove(groove, how, START_SECONDS));
}

describe("pulse, metre and downbeat without a click", () => {
  test.each([
    { id: "rock-eighths", tempoBpm: 104, metre: "4/4", beatsInBar: 4 },
    { id: "swing", tempoBpm: 160, metre: "4/4", beatsInBar: 4 },
    { id: "jazz-waltz", tempoBpm: 140, metre: "3/4", beatsInBar: 3 },
    { id: "bolero", tempoBpm: 85, metre: "4/4", beatsInBar: 4 },
  ])("$id at $tempoBpm", ({ id, tempoBpm, metre, beatsInBar }) => {
    const path = take(id, tempoBpm);
    const { code, stderr, objects } = runJson(["listen", path]);
    expect({ code, stderr }).toEqual({ code: 0, stderr: "" });
    expect(objects.length).toBe(1);
    const found = heard.parse(objects[0]);
    expect(found.take).toBe(path);
    expect(found.metre).toBe(metre);
    // Gouyon et al. 2006: a tempo is right within 4 %; a machine's take can be heard far better.
    expect(Math.abs(found.tempo / tempoBpm - 1)).toBeLessThan(0.005);
    expect(found.beats.length).toBeGreaterThanOrEqual(15 * beatsInBar);
    const beatSeconds = 60 / tempoBpm;
    for (const beat of found.beats) {
      const beats = (beat - START_SECONDS - 0.004) / beatSeconds;
      // Davies, Degara & Plumbley 2009 count a beat within 70 ms.
      expect(Math.abs(beats - Math.round(beats)) * beatSeconds).toBeLessThan(0.02);
    }
    for (const downbeat of found.downbeats) {
      expect(found.beats).toContain(downbeat);
      const bars = (downbeat - START_SECONDS - 0.004) / (beatSeconds * beatsInBar);
      expect(Math.abs(bars - Math.round(bars)) * beatSeconds * beatsInBar).toBeLessThan(0.07);
    }
    expect(found.downbeats.length).toBeGreaterThanOrEqual(15);
  });

  test("with a click the tempo is the click's", () => {
    const path = take("rock-eighths", 104);
    const { objects } = runJson(["listen", "--click", "104", path]);
    expect(heard.parse(objects[0]).tempo).toBeCloseTo(104, 0);
  });
});

test("a track laid over its copy is heard once", () => {
  const groove = grooveById("rock-eighths");
  if (!groove) throw new Error("The stock has no rock-eighths.");
  const strikes = strikesOfGroove(groove, {
    ...{ tempoBpm: 96, bars: 8, leanMs: 0, spreadMs: 6, leftOut: 0, added: 0 },
    chance: seededChance(3),
  });
  const once = writeTake(join(folder, "once.mid"), strikes);
  const twice = writeTake(join(folder, "twice.mid"), [...strikes, ...strikes]);
  const [first, second] = runJson(["listen", once, twice]).objects.map((object) => heard.parse(object));
  expect(second).toEqual({ ...first, take: twice });
  expect(first?.tempo).toBeCloseTo(96, 0);
});

test("keys that the map does not name: the error says so", () => {
  const strikes = Array.from({ length: 40 }, (_, at) => ({ time: at / 4, note: 96, velocity: 90 }));
  const { code, stderr, objects } = runJson(["listen", writeTake(join(folder, "keys.mid"), strikes)]);
  expect(code).toBe(1);
  expect(objects).toMatchObject([{ error: expect.stringContaining("The map names none of the keys") }]);
  expect(stderr).toMatch(/^[^\n]*keys\.mid: The map names none of the keys[^\n]*\n$/);
});

test("as text: the take's name, then tempo and metre", () => {
  const path = take("rock-eighths", 104);
  const { code, lines } = run(["listen", path]);
  expect(code).toBe(0);
  expect(lines[0]).toBe(path);
  expect(lines[1]).toMatch(/^ {2}10[34]\.\d a minute, 4\/4\.$/);
});

// Groove MIDI Dataset (Gillick et al., ICML 2019; CC BY 4.0): people playing to a click that starts at time 0.
describe("people, on the takes beside the tests", () => {
  const fixtures = resolve(import.meta.dirname, "../fixtures/groove-midi");
  const takes = readdirSync(fixtures)
    .filter((name) => name.endsWith(".mid"))
    .map((name) => join(fixtures, name));

  test("the tempo of each, or one of its multiples, within 4 %", () => {
    const { code, objects } = runJson(["listen", ...takes]);
    expect(code).toBe(0);
    const found = z.array(heard).parse(objects);
    expect(found.map(({ take: path }) => path)).toEqual(takes);
    for (const { take: path, tempo } of found) {
      const tempoBpm = Number(/_(\d+)_beat_/.exec(basename(path))?.[1]);
      const off = [1, 2, 3, 1 / 2, 1 / 3].map((times) => Math.abs(tempo / (tempoBpm * times) - 1));
      expect(Math.min(...off), `${basename(path)}: ${tempo}`).toBeLessThan(0.04);
    }
  });
});
