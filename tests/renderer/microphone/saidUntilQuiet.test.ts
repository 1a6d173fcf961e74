import { expect, test } from "vitest";
import { normal, seededChance } from "../../../engine/units/index.ts";
import { saidSoFar } from "../../../renderer/microphone/saidUntilQuiet.ts";

const RATE = 16_000;

/** Stretches of noise: seconds and loudness. */
function stretches(...all: readonly (readonly [seconds: number, loudness: number])[]) {
  const chance = seededChance(4);
  const samples = all.flatMap(([seconds, loudness]) =>
    Array.from({ length: seconds * RATE }, () => normal(chance) * loudness),
  );
  return { samples: Float32Array.from(samples), sampleRate: RATE };
}

test.each([
  ["nothing at all", stretches(), false, 0],
  ["silence", stretches([1, 0]), false, 0],
  ["a room alone", stretches([1, 0.01]), false, 0],
  ["somebody speaking", stretches([0.5, 0.005], [0.5, 0.2]), true, 0],
  ["spoken, then quiet", stretches([0.5, 0.005], [0.5, 0.2], [1, 0.005]), true, 1],
  ["soft after loud is quiet", stretches([0.5, 0.001], [0.2, 0.5], [0.6, 0.01]), true, 0.6],
])("%s", (_, sound, said, quietSeconds) => {
  const told = saidSoFar(sound);
  expect(told.said).toBe(said);
  expect(told.quietSeconds).toBeCloseTo(quietSeconds, 1);
});
