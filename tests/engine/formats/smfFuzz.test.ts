/**
 * Files that were damaged, cut, or made to do harm: each gives a sentence, or what the file does say; none hangs.
 */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { readSmf, SmfError, strikesOf } from "../../../engine/formats/index.ts";
import { parseKitMap } from "../../../engine/kit/index.ts";
import { repeatingGroove } from "../../../engine/listening/index.ts";
import { type Chance, seededChance } from "../../../engine/units/index.ts";
import wideNinePiece from "../../../kit-maps/wide-nine-piece.json" with { type: "json" };
import { chunk, END_OF_TRACK, file, header, strike, tempo, track, variableLength } from "./smfBytes.ts";

const WIDE = parseKitMap(wideNinePiece, "wide-nine-piece.json");
const FOLDER = join(import.meta.dirname, "../../fixtures/groove-midi");
const takes = readdirSync(FOLDER)
  .filter((name) => name.endsWith(".mid"))
  .map((name) => new Uint8Array(readFileSync(join(FOLDER, name))));

const MUTATIONS = 10_000;
/** Reading a whole take costs a few milliseconds; one that takes so long hangs. */
const LONGEST_MS = 2000;

/** A file with one to three changes: bytes set, put in, taken out, a stretch doubled, the end cut. */
function mutated(whole: Uint8Array, chance: Chance): Uint8Array {
  let bytes = [...whole];
  const changes = 1 + Math.floor(chance() * 3);
  for (let change = 0; change < changes; change += 1) {
    // Half of the changes hit the head, where a file's structure stands.
    const within = chance() < 0.5 ? Math.min(64, bytes.length) : bytes.length;
    const at = Math.floor(chance() * within);
    const kind = Math.floor(chance() * 5);
    if (kind === 0) bytes[at] = Math.floor(chance() * 256);
    if (kind === 1) bytes.splice(at, 0, Math.floor(chance() * 256));
    if (kind === 2) bytes.splice(at, 1 + Math.floor(chance() * 4));
    if (kind === 3) bytes = [...bytes.slice(0, at), ...bytes.slice(at, at + 40), ...bytes.slice(at)];
    if (kind === 4 && chance() < 0.2) bytes = bytes.slice(0, at);
  }
  return Uint8Array.from(bytes);
}

test(`${MUTATIONS} damaged takes: a sentence or strikes at moments that are, and never a long wait`, () => {
  const chance = seededChance(5);
  // A short file, so that every byte of it is hit many times, and whole takes.
  const short = file(
    header(1, 2, 480),
    track(tempo(0, 500_000), tempo(960, 400_000)),
    track(strike(0, 36), strike(240, 38), strike(240, 42), [0, 0xb9, 4, 90], strike(480, 49)),
  );
  let read = 0;
  let refused = 0;
  let slowestMs = 0;
  for (let run = 0; run < MUTATIONS; run += 1) {
    const whole = run % 20 === 0 ? takes[(run / 20) % takes.length] : short;
    const bytes = mutated(whole ?? short, chance);
    const from = performance.now();
    try {
      const found = strikesOf(readSmf(bytes), WIDE);
      let before = 0;
      for (const { time, velocity, pad } of found) {
        if (!(time >= before && Number.isFinite(time) && velocity > 0 && velocity <= 1 && pad <= 127))
          expect.fail(`run ${run}: a strike at ${time} on ${pad}, strength ${velocity}`);
        before = time;
      }
      read += 1;
    } catch (error) {
      expect(error, `run ${run}`).toBeInstanceOf(SmfError);
      refused += 1;
    }
    slowestMs = Math.max(slowestMs, performance.now() - from);
  }
  console.info(
    `${MUTATIONS} damaged files: ${read} read, ${refused} refused, slowest ${slowestMs.toFixed(0)} ms`,
  );
  expect(read).toBeGreaterThan(MUTATIONS / 20);
  expect(refused).toBeGreaterThan(MUTATIONS / 20);
  expect(slowestMs).toBeLessThan(LONGEST_MS);
}, 120_000);

test("what can still be read of damaged takes is written down, and its groove looked for, without harm", () => {
  const chance = seededChance(9);
  let read = 0;
  for (let run = 0; run < 300 && read < 60; run += 1) {
    const bytes = Uint8Array.from(takes[run % takes.length] ?? []);
    // Tempo, metre and division stand at the head; the strikes after it.
    for (let change = 0; change < 2; change += 1)
      bytes[Math.floor(chance() * (change === 0 ? 90 : bytes.length))] = Math.floor(chance() * 256);
    const file = readOrNone(bytes);
    if (!file) continue;
    read += 1;
    const from = performance.now();
    const found = repeatingGroove(strikesOf(file, WIDE), file);
    expect(performance.now() - from, `run ${run}`).toBeLessThan(LONGEST_GROOVE_MS);
    if (found.kind === "none") continue;
    expect(found.groove.notes.length, `run ${run}`).toBeGreaterThan(0);
    expect(Number.isFinite(found.groove.tempoBpm), `run ${run}`).toBe(true);
    expect(found.played, `run ${run}`).toBeLessThanOrEqual(found.outOf);
  }
  expect(read).toBe(60);
}, 120_000);

/** A second is what the slowest takes; a busy machine may need more, a hang would need for ever. */
const LONGEST_GROOVE_MS = 10_000;

function readOrNone(bytes: Uint8Array) {
  try {
    return readSmf(bytes);
  } catch (error) {
    if (error instanceof SmfError) return undefined;
    throw error;
  }
}

describe("files that are no take", () => {
  test.each([
    {
      type: 2,
      says: "of type 2, which holds several pieces side by side. Save each of them as type 0 or 1.",
    },
    { type: 3, says: "of type 3, which the standard does not know" },
    { type: 65_535 & 0xff, says: "of type 255, which the standard does not know" },
  ])("type $type", ({ type, says }) => {
    const bytes = file(header(type, 1, 480), track(strike(0, 38)));
    expect(() => readSmf(bytes)).toThrow(SmfError);
    expect(() => readSmf(bytes)).toThrow(says);
  });

  test("100 megabytes are refused at once, with their size", () => {
    const bytes = new Uint8Array(100_000_000);
    bytes.set(header(0, 1, 480));
    const from = performance.now();
    expect(() => readSmf(bytes)).toThrow("The file has 100 megabytes; a take has at most 16.");
    expect(performance.now() - from).toBeLessThan(100);
  });

  test("fifteen megabytes of strikes are refused in bounded time", () => {
    // Running status: three bytes a strike, five million strikes.
    const data = new Uint8Array(15_000_000);
    for (let at = 0; at < data.length; at += 3) data.set([1, 38, 100], at);
    data.set([0, 0x99, 38, 100], 0);
    const head = file(header(0, 1, 480), [0x4d, 0x54, 0x72, 0x6b]);
    const bytes = new Uint8Array(head.length + 4 + data.length);
    bytes.set(head);
    new DataView(bytes.buffer).setUint32(head.length, data.length);
    bytes.set(data, head.length + 4);
    const from = performance.now();
    expect(() => readSmf(bytes)).toThrow("more strikes than a day of playing");
    expect(performance.now() - from).toBeLessThan(10_000);
  });

  test("a file that lasts for weeks", () => {
    const late = [0xff, 0xff, 0xff, 0x7f, 0x99, 38, 100];
    expect(() => readSmf(file(header(0, 1, 96), track(late)))).toThrow(
      "The file lasts 388 hours; a take lasts a week at most.",
    );
  });

  test("a text of a megabyte beside the strikes does not hide them", () => {
    const text = [0, 0xff, 0x01, ...variableLength(1_000_000), ...new Array<number>(1_000_000).fill(65)];
    const bytes = file(header(0, 1, 480), chunk("MTrk", text.concat(strike(0, 38), END_OF_TRACK)));
    expect(readSmf(bytes).events.length).toBe(1);
  });

  test.each([
    { fault: "a length that leads out of the track", data: [0, 0xff, 0x01, 0x7f, 65] },
    { fault: "a system message that leads out of the track", data: [0, 0xf0, 0x7f, 65] },
    { fault: "a message that is for the wire only", data: [0, 0xf8, ...END_OF_TRACK] },
    { fault: "a delta time with nothing after it", data: [0x10] },
    { fault: "a tempo of two bytes", data: [0, 0xff, 0x51, 2, 7, 0xa1, ...END_OF_TRACK] },
    { fault: "a metre of nothing", data: [0, 0xff, 0x58, 4, 0, 2, 24, 8, ...END_OF_TRACK] },
    { fault: "a metre in 256ths of a note", data: [0, 0xff, 0x58, 4, 4, 8, 24, 8, ...END_OF_TRACK] },
  ])("$fault", ({ data }) => {
    expect(() => readSmf(file(header(0, 1, 480), chunk("MTrk", data)))).toThrow(SmfError);
  });

  test("what follows the end of a track is not part of it", () => {
    const data = [...strike(0, 38), ...END_OF_TRACK, ...strike(0, 40), 0xff];
    expect(readSmf(file(header(0, 1, 480), chunk("MTrk", data))).events.length).toBe(1);
  });
});
