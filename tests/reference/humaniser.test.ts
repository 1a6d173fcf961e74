/**
 * Demonstrations against the two-level model of timing: Wing & Kristofferson, Perception & Psychophysics 14 (1973)
 * 5–12. Intervals I = C + M − M′ have the variance σC² + 2σM², the autocovariance −σM² at lag 1 and 0 beyond, so that
 * the autocorrelation at lag 1 is −σM² / (σC² + 2σM²), from −0.5 to 0.
 */
import { describe, expect, test } from "vitest";
import { demonstrate, demonstratedBeats } from "../../engine/catalogue/index.ts";
import { parseGrid } from "../../engine/score/index.ts";
import { seededChance } from "../../engine/units/index.ts";

/** One voice, one stroke a beat. */
const PULSE = parseGrid("groove: p\nname: P\nmetre: 4/4\ntempo: 60-140\nsnare | xxxx |");
const BARS = 2500;
const INTERVALS = BARS * 4 - 1;

/** Intervals between the strokes of one voice, milliseconds. */
function intervals(how: {
  clockMs: number;
  motorMs: number;
  seed: number;
  tempoBpm?: number;
}): readonly number[] {
  const { seed, ...timing } = how;
  const nothing = { leanMs: 0, spreadMs: 0, leftOut: 0, added: 0 };
  // A count-in, so that no stroke is held at time 0.
  const asked = { tempoBpm: 100, bars: BARS, countIn: 1, ...nothing, ...timing, chance: seededChance(seed) };
  const times = demonstrate(PULSE, asked).flatMap(({ time, voice }) =>
    voice === "snare" ? [time * 1000] : [],
  );
  return times.slice(1).map((time, index) => time - (times[index] ?? 0));
}

function autocovariance(values: readonly number[], lag: number): number {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  let sum = 0;
  for (let index = lag; index < values.length; index += 1) {
    sum += ((values[index] ?? 0) - mean) * ((values[index - lag] ?? 0) - mean);
  }
  return sum / values.length;
}

// Worked: σC 20 and σM 10 give Var 600 and ρ −1/6; pure motor −1/2; pure clock 0.
describe.each([
  { clockMs: 20, motorMs: 10, variance: 600, rho: -1 / 6 },
  { clockMs: 0, motorMs: 10, variance: 200, rho: -0.5 },
  { clockMs: 20, motorMs: 0, variance: 400, rho: 0 },
  { clockMs: 10, motorMs: 10, variance: 300, rho: -1 / 3 },
])("clock $clockMs ms, motor $motorMs ms", ({ clockMs, motorMs, variance, rho }) => {
  test.each([1, 2, 3, 4, 5])("seed %s", (seed) => {
    const values = intervals({ clockMs, motorMs, seed });
    expect(values.length).toBe(INTERVALS);
    const atZero = autocovariance(values, 0);
    const atOne = autocovariance(values, 1);
    const atTwo = autocovariance(values, 2);
    // Bartlett 1946, for a correlation ρ at lag 1 alone: Var(r₁) ≈ (1 − 3ρ² + 4ρ⁴) / n, Var(r₂) and of the variance's
    // own ratio ≈ (1 + 2ρ²) / n and 2 (1 + 2ρ²) / n. Four standard errors.
    const fourErrors = (share: number) => 4 * Math.sqrt(share / INTERVALS);
    const measured = atOne / atZero;
    expect(Math.abs(measured - rho)).toBeLessThan(fourErrors(1 - 3 * rho ** 2 + 4 * rho ** 4));
    expect(measured).toBeGreaterThan(-0.5 - fourErrors(0.5));
    expect(measured).toBeLessThan(fourErrors(1));
    expect(Math.abs(atTwo / atZero)).toBeLessThan(fourErrors(1 + 2 * rho ** 2));
    expect(Math.abs(atZero / variance - 1)).toBeLessThan(fourErrors(2 * (1 + 2 * rho ** 2)));
    // And back to the two levels: σM² = −γ(1), σC² = γ(0) + 2γ(1).
    expect(Math.abs(-atOne - motorMs ** 2) / variance).toBeLessThan(2 * fourErrors(1));
    expect(Math.abs(atZero + 2 * atOne - clockMs ** 2) / variance).toBeLessThan(3 * fourErrors(2));
  });
});

test("the clock is stated for a beat, whatever the tempo; half a beat has half its variance", () => {
  const slow = autocovariance(intervals({ clockMs: 20, motorMs: 0, seed: 6, tempoBpm: 60 }), 0);
  expect(Math.abs(slow / 400 - 1)).toBeLessThan(4 * Math.sqrt(2 / INTERVALS));
  const eighths = parseGrid("groove: e\nname: E\nmetre: 4/4\ntempo: 60-140\nsnare | xx xx xx xx |");
  const nothing = { leanMs: 0, spreadMs: 0, leftOut: 0, added: 0 };
  const asked = { tempoBpm: 100, bars: BARS, clockMs: 20, ...nothing, chance: seededChance(7) };
  const times = demonstrate(eighths, asked).map(({ time }) => time * 1000);
  const halves = times.slice(1).map((time, index) => time - (times[index] ?? 0));
  expect(Math.abs(autocovariance(halves, 0) / 200 - 1)).toBeLessThan(4 * Math.sqrt(2 / halves.length));
});

test("without motor delay the strokes are the beats of the clock itself", () => {
  const nothing = { leanMs: 0, spreadMs: 0, leftOut: 0, added: 0 };
  const asked = () => ({ tempoBpm: 100, bars: 8, clockMs: 20, ...nothing, chance: seededChance(8) });
  expect(demonstrate(PULSE, asked()).map(({ time }) => time)).toEqual(demonstratedBeats(PULSE, asked()));
});
