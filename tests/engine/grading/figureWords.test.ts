import { expect, test } from "vitest";
import {
  type FormSlip,
  formWords,
  limbSwingWords,
  type Wander,
  type WorkOn,
  wanderWords,
  workOnWords,
} from "../../../engine/grading/index.ts";

const at = { bar: 5, beat: 3, strokes: 7 } as const;

const SLIPS: readonly { readonly slip: FormSlip; readonly expected: string }[] = [
  { slip: { kind: "entry", ...at, byBeats: 1, byMs: 600 }, expected: "The entry came one beat late." },
  { slip: { kind: "entry", ...at, byBeats: -0.5, byMs: -300 }, expected: "The entry came 0.5 beats early." },
  { slip: { kind: "bars-dropped", ...at, bars: 1 }, expected: "A bar was skipped at bar 5." },
  { slip: { kind: "bars-dropped", ...at, bars: 2 }, expected: "Two bars were skipped at bar 5." },
  { slip: { kind: "bars-added", ...at, bars: 1 }, expected: "A bar was added at bar 5." },
  { slip: { kind: "bars-silent", ...at, bars: 1 }, expected: "Bar 5 was left empty." },
  { slip: { kind: "bars-silent", ...at, bars: 3 }, expected: "Bars 5 to 7 were left empty." },
  {
    slip: { kind: "stopped", ...at, onBar: 6, onBeat: 1, silenceMs: 1900 },
    expected: "It stopped in bar 5, and went on from beat 1 of bar 6.",
  },
  {
    slip: { kind: "turned-round", ...at, byBeats: 1, untilBar: null },
    expected: "From bar 5, beat 3, the groove lies one beat late, to the end.",
  },
  {
    slip: { kind: "turned-round", ...at, byBeats: -2, untilBar: 9 },
    expected: "From bar 5, beat 3, the groove lies two beats early; from bar 9 it is in place.",
  },
  {
    slip: { kind: "one-off-place", ...at, byMs: 48.6, afterFill: true },
    expected: "The one after the fill, bar 5, came 49 ms late.",
  },
  {
    slip: { kind: "one-off-place", ...at, byMs: -40, afterFill: false },
    expected: "The one of the new phrase, bar 5, came 40 ms early.",
  },
];
test.each(SLIPS)("$expected", ({ slip, expected }) => {
  expect(formWords(slip)).toBe(expected);
  expect(workOnWords({ kind: "form", slip }).startsWith(`${expected} `)).toBe(true);
});

const ROW = {
  limb: "hats",
  intervals: 60,
  intervalMs: 300,
  intervalSpreadMs: 15,
  lag1: -0.2,
  lag1Error: 0.13,
  correction: null,
} as const;
const WANDERS: readonly { readonly wander: Wander; readonly expected: string | null }[] = [
  { wander: { kind: "too-few", intervals: 4 }, expected: null },
  {
    wander: { kind: "clock-and-limbs", ...ROW, clockMs: 11.6, limbMs: 6.7 },
    expected: "What wanders on the hi-hat: inner clock 12 ms, limb 7 ms.",
  },
  {
    wander: { kind: "model-does-not-hold", ...ROW, lag1: 0.3 },
    expected: "What wanders on the hi-hat cannot be split between clock and limb in this take.",
  },
];
test.each(WANDERS)("wander: $expected", ({ wander, expected }) => {
  expect(wanderWords(wander)).toBe(expected);
});

test("a limb that swings, and one that was hardly played", () => {
  const row = { limb: "cymbals", pairs: 24, ownBeats: true } as const;
  expect(limbSwingWords({ ...row, ratio: 1.93 })).toBe("Cymbals: 1.9 to 1, long to short.");
  expect(limbSwingWords({ ...row, ratio: null })).toBeNull();
});

const WORK: readonly { readonly workOn: WorkOn; readonly expected: string }[] = [
  {
    workOn: { kind: "unison", limb: "kick", against: "hats", gapMs: 33 },
    expected: "The kick comes 33 ms after the hi-hat where both are written. Let them land as one.",
  },
  {
    workOn: { kind: "ornament", ornament: "flam", was: "too-tight", count: 3 },
    expected: "The flam was too tight three times. Give the grace stroke room.",
  },
  {
    workOn: { kind: "ornament", ornament: "drag", was: "too-open", count: 2 },
    expected: "The drag was too open twice. Let the two hands fall closer.",
  },
  {
    workOn: { kind: "ornament", ornament: "flam", was: "no-grace", count: 4 },
    expected: "The flam came without its grace stroke four times. Start the low hand lower.",
  },
  {
    workOn: { kind: "hi-hat", was: "open-as-closed", count: 2 },
    expected: "The open hi-hat sounded closed twice. Let the foot come up.",
  },
  {
    workOn: { kind: "hi-hat", was: "closed-as-open", count: 5 },
    expected: "The hi-hat sounded open five times where it is written closed. Keep the foot down.",
  },
  {
    workOn: { kind: "accents", voice: "snare", count: 6 },
    expected: "The snare had six accents that did not stand out. Bring them out, or play the rest lower.",
  },
];
test.each(WORK)("$expected", ({ workOn, expected }) => {
  expect(workOnWords(workOn)).toBe(expected);
});
