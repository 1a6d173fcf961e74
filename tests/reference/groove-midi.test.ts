/**
 * Every take of the Groove MIDI Dataset (Gillick, Roberts, Engel, Eck & Bamman, ICML 2019; CC BY 4.0): as many hits
 * come out as note-ons go in, with their strength, and the hi-hat with its pedal. What goes in is counted by a
 * reader of its own, below, that shares nothing with the program's.
 */
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { basename, join, resolve } from "node:path";
import { describe, expect, test } from "vitest";
import { readSmf, strikesOf } from "../../engine/formats/index.ts";
import { KitEar, padFor, parseKitMap } from "../../engine/kit/index.ts";
import wideNinePiece from "../../kit-maps/wide-nine-piece.json" with { type: "json" };

const WIDE = parseKitMap(wideNinePiece, "wide-nine-piece.json");
const root = resolve(import.meta.dirname, "../..");
const dataSet = join(root, "../shared/data/groove-midi");
const fixtures = join(root, "tests/fixtures/groove-midi");

function midiFilesIn(folder: string): string[] {
  if (!existsSync(folder)) return [];
  return readdirSync(folder, { recursive: true, encoding: "utf8" })
    .filter((name) => name.endsWith(".mid"))
    .sort()
    .map((name) => join(folder, name));
}

interface Counted {
  readonly seconds: number;
  readonly kind: "strike" | "control" | "pressure";
  readonly first: number;
  readonly second: number;
}

/** Strikes, controllers and key pressures of a file, in order of time, read from its bytes alone. */
function countedIn(bytes: Uint8Array): readonly Counted[] {
  const at = (index: number): number => {
    const byte = bytes[index];
    if (byte === undefined) throw new Error(`The file ends before byte ${index}.`);
    return byte;
  };
  const big = (index: number, count: number): number =>
    Array.from({ length: count }, (_, byte) => at(index + byte)).reduce((sum, byte) => sum * 256 + byte, 0);
  const events: (Omit<Counted, "seconds"> & { readonly tick: number })[] = [];
  const tempos = [{ tick: 0, microseconds: 500_000 }];
  for (let start = 8 + big(4, 4); start < bytes.length; start += 8 + big(start + 4, 4)) {
    const end = start + 8 + big(start + 4, 4);
    let next = start + 8;
    let tick = 0;
    let status = 0;
    const quantity = (): number => {
      let value = 0;
      for (;;) {
        const byte = at(next);
        next += 1;
        value = value * 128 + (byte % 128);
        if (byte < 128) return value;
      }
    };
    while (next < end) {
      tick += quantity();
      if (at(next) === 0xff) {
        const isTempo = at(next + 1) === 0x51;
        next += 2;
        const length = quantity();
        if (isTempo) tempos.push({ tick, microseconds: big(next, 3) });
        next += length;
        continue;
      }
      if (at(next) === 0xf0 || at(next) === 0xf7) {
        next += 1;
        const length = quantity();
        next += length;
        continue;
      }
      if (at(next) >= 128) {
        status = at(next);
        next += 1;
      }
      const nibble = status >> 4;
      const short = nibble === 0xc || nibble === 0xd;
      const [first, second] = [at(next), short ? 0 : at(next + 1)];
      next += short ? 1 : 2;
      if (nibble === 9 && second > 0) events.push({ tick, kind: "strike", first, second });
      if (nibble === 0xb) events.push({ tick, kind: "control", first, second });
      if (nibble === 0xa) events.push({ tick, kind: "pressure", first, second });
    }
  }
  const division = big(12, 2);
  tempos.sort((a, b) => a.tick - b.tick);
  const secondsOf = (tick: number): number =>
    tempos.reduce((sum, tempo, index) => {
      const until = Math.min(tick, tempos[index + 1]?.tick ?? tick);
      return sum + (Math.max(0, until - tempo.tick) * tempo.microseconds) / (division * 1e6);
    }, 0);
  return events
    .sort((a, b) => a.tick - b.tick)
    .map(({ tick, ...event }) => ({ ...event, seconds: secondsOf(tick) }));
}

/** Checks one take, and gives how many strikes it has. */
function checkTake(path: string): number {
  const bytes = readFileSync(path);
  const events = countedIn(bytes);
  const strikes = events.filter(({ kind }) => kind === "strike");
  const file = readSmf(bytes);
  const hits = strikesOf(file, WIDE);
  expect(hits.length, path).toBe(strikes.length);

  hits.forEach(({ time, pad, velocity, voice }, index) => {
    const strike = strikes[index];
    // Plain comparisons: a hundred thousand strikes and more.
    const same =
      pad === strike?.first &&
      Math.abs(velocity * 127 - strike.second) < 1e-9 &&
      Math.abs(time - strike.seconds) < 1e-9 * Math.max(1, time) &&
      voice === (padFor(WIDE, pad)?.voice ?? "unknown");
    if (!same)
      expect({ time, pad, velocity: velocity * 127, voice }, `${path}, strike ${index}`).toEqual(strike);
  });

  // Controller 4 in the order of the file, and on every strike of the hi-hat after its first message.
  const pedal = events.filter(({ kind, first }) => kind === "control" && first === 4);
  const ear = new KitEar(WIDE);
  const moves = file.events.flatMap(({ time, message }) => {
    const event = ear.hear(message, time);
    return event?.kind === "hi-hat" ? [event.openness] : [];
  });
  expect(moves, path).toEqual(pedal.map(({ second }) => expect.closeTo((127 - second) / 127, 9)));
  const moved = pedal[0]?.seconds ?? Number.POSITIVE_INFINITY;
  for (const hit of hits.filter(({ voice, time }) => voice.startsWith("hi-hat") && time > moved + 1e-6)) {
    expect(hit.openness, `${path} at ${hit.time}`).toBeDefined();
  }

  const pressures = events.filter(({ kind }) => kind === "pressure");
  expect(file.events.filter(({ message }) => message.kind === "key-pressure").length, path).toBe(
    pressures.length,
  );
  return strikes.length;
}

test.each(midiFilesIn(fixtures).map((path) => ({ name: basename(path), path })))(
  "$name: hits in are hits out",
  ({ path, name }) => {
    expect(checkTake(path)).toBeGreaterThan(50);
    // The tempo in the name is the tempo of the file.
    const tempoBpm = Number(/_(\d+)_beat_/.exec(name)?.[1]);
    expect(readSmf(readFileSync(path)).tempos[0]?.tempoBpm).toBeCloseTo(tempoBpm, 2);
  },
);

test("six takes lie beside the tests", () => {
  expect(midiFilesIn(fixtures).length).toBe(6);
});

const takes = midiFilesIn(dataSet);
if (takes.length === 0) {
  console.info("The large data set is not beside the project: its tests are skipped.");
}

describe.skipIf(takes.length === 0)("the large data set", () => {
  test("hits in are hits out in all 948 takes", () => {
    expect(takes.length).toBe(948);
    let strikes = 0;
    for (const path of takes) strikes += checkTake(path);
    console.info(`${takes.length} takes, ${strikes} strikes`);
    expect(strikes).toBeGreaterThan(100_000);
  });

  test("the 22 keys of the kit are all that is struck, and none is unknown", () => {
    const keys = new Set(
      takes.flatMap((path) => strikesOf(readSmf(readFileSync(path)), WIDE).map(({ pad }) => pad)),
    );
    expect(keys.size).toBeLessThanOrEqual(22);
    for (const key of keys) expect(padFor(WIDE, key)?.zone, `key ${key}`).not.toBe("whole");
  });
});
