import { describe, expect, test } from "vitest";
import { STYLES } from "../../../engine/catalogue/index.ts";
import type { Hit, Voice } from "../../../engine/kit/index.ts";
import { catalogueStock, type HeardSwing, hear, quantise } from "../../../engine/listening/index.ts";
import type { Feel, Groove } from "../../../engine/score/index.ts";
import { normal, seededChance } from "../../../engine/units/index.ts";
import { played, writtenGrooveOf } from "./played.ts";

const stock = catalogueStock(STYLES);

function writtenFeel(hits: readonly Hit[]): { readonly feel: Feel; readonly swing: HeardSwing | null } {
  const heard = hear(hits, stock);
  if (heard.kind === "nothing") throw new Error("Nothing was heard.");
  return { feel: quantise(hits, heard).feel, swing: heard.swing };
}

const TEMPOS = [120, 130, 140, 150, 160];
const straight = STYLES.flatMap(({ variants }) => variants).filter(
  ({ feel, notes, metre }) =>
    feel.kind === "straight" && metre.denominator === 4 && notes.some(({ position }) => position.den === 4),
);

function playedAt(groove: Groove, tempoBpm: number, spreadMs: number): readonly Hit[] {
  return played(groove, { tempoBpm, bars: 8, spreadMs, chance: seededChance(5) });
}

/** Sixteenths of a bar that are struck, one line a voice. */
function madeUp(
  lines: Readonly<Partial<Record<Voice, string>>>,
  how: { readonly tempoBpm: number; readonly spreadMs: number; readonly seed: number },
): readonly Hit[] {
  const chance = seededChance(how.seed);
  const bar = 240 / how.tempoBpm;
  const hits = Object.entries(lines).flatMap(([voice, line]) =>
    Array.from({ length: 8 * 16 }, (_, step) => step)
      .filter((step) => line[step % 16] === "x")
      .map((step): Hit => {
        const time = 1 + (step * bar) / 16 + (normal(chance) * how.spreadMs) / 1000;
        return { time, voice: voice as Voice, zone: "whole", velocity: 0.7, pad: 0 };
      }),
  );
  return hits.sort((a, b) => a.time - b.time);
}

const HATS = { eighths: "x.x.x.x.x.x.x.x.", quarters: "x...x...x...x..." };
const SNARE = "....x.......x...";

describe("straight sixteenths are not written as swung", () => {
  test.each([120, 140, 160])(
    "any groove of the stock with sixteenths, at %i a minute",
    (tempoBpm) => {
      expect(straight.length).toBeGreaterThan(40);
      for (const groove of straight) {
        for (const spreadMs of [8, 14])
          expect(
            writtenFeel(playedAt(groove, tempoBpm, spreadMs)).feel,
            `${groove.id}, spread ${spreadMs}`,
          ).toEqual({ kind: "straight" });
      }
    },
    180_000,
  );

  test.each([
    "x..x..x.x..x..x.",
    "x..xx..xx..xx..x",
    "x..x....x..x....",
    "x..x..x...x.....",
    "x......xx......x",
  ])(
    "kicks on %s",
    (kick) => {
      for (const hats of Object.values(HATS)) {
        for (const tempoBpm of TEMPOS) {
          for (const spreadMs of [0, 6, 12]) {
            const hits = madeUp(
              { "hi-hat-closed": hats, snare: SNARE, kick },
              { tempoBpm, spreadMs, seed: tempoBpm },
            );
            expect(writtenFeel(hits).feel, `${hats} at ${tempoBpm}, spread ${spreadMs}`).toEqual({
              kind: "straight",
            });
          }
        }
      }
    },
    180_000,
  );

  test("kicks on any sixteenths", () => {
    const chance = seededChance(71);
    for (let seed = 1; seed <= 120; seed += 1) {
      const tempoBpm = 120 + 40 * chance();
      const often = 0.2 + 0.3 * chance();
      const kick = Array.from({ length: 16 }, () => (chance() < often ? "x" : ".")).join("");
      const hats = seed % 2 === 0 ? HATS.eighths : HATS.quarters;
      const hits = madeUp(
        { "hi-hat-closed": hats, snare: SNARE, kick },
        { tempoBpm, spreadMs: [0, 6, 12][seed % 3] ?? 0, seed },
      );
      expect(writtenFeel(hits).feel, `${seed}: ${kick} at ${tempoBpm}`).toEqual({ kind: "straight" });
    }
  }, 180_000);
});

describe("swing is still written", () => {
  test.each([1.5, 1.8, 2])(
    "wherever sixteenths are heard as swung, %d to 1",
    (ratio) => {
      let swung = 0;
      for (const groove of straight) {
        const meant = { ...groove, feel: { kind: "swung", ratio, written: "sixteenths" } as const };
        for (const tempoBpm of [90, 140]) {
          const { feel, swing } = writtenFeel(playedAt(meant, tempoBpm, 8));
          if (swing?.of !== "sixteenths" || Math.abs(swing.ratio - ratio) > 0.2) continue;
          swung += 1;
          expect(feel, `${groove.id} at ${tempoBpm}`).toMatchObject({ kind: "swung", written: "sixteenths" });
        }
      }
      expect(swung).toBeGreaterThan(60);
    },
    180_000,
  );

  test.each([
    ["rock-eighths", 92, "eighths", 1.5],
    ["rock-eighths", 140, "eighths", 2],
    ["rock-eighths-4", 160, "eighths", 1.6],
    ["rock-sixteenths", 140, "sixteenths", 1.5],
    ["steppers-2", 150, "sixteenths", 1.8],
  ] as const)("%s at %i, %s of %d to 1", (id, tempoBpm, written, ratio) => {
    const groove = { ...writtenGrooveOf(id), feel: { kind: "swung", ratio, written } as const };
    const { feel } = writtenFeel(playedAt(groove, tempoBpm, 8));
    expect(feel).toMatchObject({ kind: "swung", written });
    expect(Math.abs((feel.kind === "swung" ? feel.ratio : Number.NaN) - ratio)).toBeLessThan(0.3);
  });
});
