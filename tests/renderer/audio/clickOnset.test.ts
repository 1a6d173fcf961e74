import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Chance, normal, seededChance } from "../../../engine/units/index.ts";
import { type Heard, onsetIn } from "../../../renderer/audio/clickOnset.ts";

const RATE = 48_000;

/** A third of a second of room with a sound in it. */
function room({
  sound,
  at,
  noise,
  level = 1,
  chance,
}: {
  readonly sound: Float32Array;
  readonly at: number;
  readonly noise: number;
  readonly level?: number;
  readonly chance: Chance;
}): Heard {
  const samples = Float32Array.from({ length: RATE * 0.35 }, () => noise * normal(chance));
  sound.forEach((sample, index) => {
    const place = Math.round(at * RATE) + index;
    samples[place] = (samples[place] ?? 0) + level * sample;
  });
  return { from: 7, samples, sampleRate: RATE };
}

/** A click: the dry knock of a stick on wood, risen within half a millisecond. */
const KNOCK = Float32Array.from({ length: RATE * 0.03 }, (_, index) => {
  const time = index / RATE;
  return 0.5 * Math.min(1, time / 0.0005) * Math.exp(-230 * time) * Math.cos(2 * Math.PI * 1000 * time);
});

/** A stick on a rubber pad: a short knock of noise, then the pad's own dull note. */
function stick(chance: Chance): Float32Array {
  return Float32Array.from({ length: RATE * 0.12 }, (_, index) => {
    const time = index / RATE;
    return (
      0.6 * normal(chance) * Math.exp(-time / 0.002) +
      0.3 * Math.sin(2 * Math.PI * 180 * time) * Math.exp(-time / 0.03)
    );
  });
}

describe("a sound in a room", () => {
  const chance = seededChance(4);

  test.each([
    ["click", 0.0005, 0.5],
    ["click", 0.005, 0.5],
    ["click", 0.01, 0.8],
    ["stick", 0.0005, 0.5],
    ["stick", 0.005, 0.8],
  ])("%s, noise %f, level %f: found within a millisecond, nineteen times of twenty", (kind, noise, level) => {
    const errorsMs = Array.from({ length: 60 }, () => {
      const at = 0.08 + 0.1 * chance();
      const sound = kind === "click" ? KNOCK : stick(chance);
      const found = onsetIn(room({ sound, at, noise, level, chance }));
      return found === undefined ? 1e3 : (found - 7 - at) * 1000;
    });
    const sizes = errorsMs.map(Math.abs).sort((a, b) => a - b);
    console.info(
      `onset of a ${kind}, noise ${noise}, level ${level}: 19 of 20 within ${sizes[56]?.toFixed(2)} ms`,
    );
    expect(sizes[56]).toBeLessThan(1);
  });

  test("a louder room hides it, and that is said", () => {
    const loud = room({ sound: KNOCK, at: 0.2, noise: 0.3, level: 0.5, chance });
    expect(onsetIn(loud)).toBeUndefined();
  });

  test("an empty room has no onset", () => {
    for (const noise of [0, 0.001, 0.1])
      expect(onsetIn(room({ sound: new Float32Array(0), at: 0.2, noise, chance }))).toBeUndefined();
  });

  test("too short a look has none", () => {
    expect(onsetIn({ from: 0, samples: new Float32Array(10), sampleRate: RATE })).toBeUndefined();
  });
});

test("moved by so many samples, the onset moves by so many", () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 0, max: 6_000 }),
      fc.double({ min: 0.05, max: 1, noNaN: true }),
      (moved, level) => {
        const at = (samples: number) =>
          onsetIn(
            room({
              sound: KNOCK,
              at: 0.06 + samples / RATE,
              noise: 0.0002,
              level,
              chance: seededChance(9),
            }),
          ) ?? Number.NaN;
        expect(Math.abs((at(moved) - at(0)) * RATE - moved)).toBeLessThan(24);
      },
    ),
    { numRuns: 40 },
  );
});
