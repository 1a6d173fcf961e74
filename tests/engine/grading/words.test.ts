import { expect, test } from "vitest";
import {
  driftWords,
  leanWords,
  numberWord,
  placeWords,
  touchWords,
  voiceWords,
  type WorkOn,
  workOnWords,
} from "../../../engine/grading/index.ts";

test.each([
  { leanMs: 16, spreadMs: 9, expected: "A little behind as a whole, steadily: that is feel." },
  { leanMs: -16, spreadMs: 9, expected: "A little ahead as a whole, steadily: that is feel." },
  { leanMs: 40, spreadMs: 9, expected: "Behind as a whole, steadily: that is feel." },
  { leanMs: -40, spreadMs: 28, expected: "Ahead as a whole, and not yet steadily." },
  { leanMs: 3, spreadMs: 9, expected: "In the pocket as a whole, steadily." },
  { leanMs: 3, spreadMs: 28, expected: "In the pocket as a whole; the single strokes still wander." },
  { leanMs: null, spreadMs: null, expected: "Nothing to measure yet: no stroke met the page." },
])("lean $leanMs, spread $spreadMs: $expected", ({ leanMs, spreadMs, expected }) => {
  expect(leanWords({ leanMs, spreadMs, tempoBpm: 120, driftPercent: 0.1 })).toBe(expected);
});

test("a tempo that moved is not taken for feel", () => {
  const moved = { leanMs: -300, tempoBpm: 120, driftPercent: 2 };
  expect(leanWords({ ...moved, spreadMs: 9 })).toBe("Steady, around a tempo that moved.");
  expect(leanWords({ ...moved, spreadMs: 28 })).toBe("The tempo moved, and the strokes wander around it.");
});

test.each([
  { driftPercent: 1.1, expected: "Gained 1 in 100 over the take." },
  { driftPercent: -2.2, expected: "Lost 2 in 100 over the take." },
  { driftPercent: 0.6, expected: "Gained less than 1 in 100 over the take." },
  { driftPercent: -0.2, expected: "The tempo held." },
  { driftPercent: null, expected: "Too short a take to say whether the tempo held." },
])("drift $driftPercent: $expected", ({ driftPercent, expected }) => {
  expect(driftWords({ driftPercent })).toBe(expected);
});

const WORK: readonly { workOn: WorkOn; expected: string }[] = [
  {
    workOn: { kind: "beat-wanders", voice: "snare", beat: 4, spreadMs: 31 },
    expected: "The snare on four wanders. Work on that one.",
  },
  {
    workOn: { kind: "beat-wanders", voice: "kick", beat: 3.5, spreadMs: 31 },
    expected: "The kick on the “and” of three wanders. Work on that one.",
  },
  {
    workOn: { kind: "beat-wanders", voice: "snare", beat: 2.75, spreadMs: 31 },
    expected: "The snare on the “a” of two wanders. Work on that one.",
  },
  {
    workOn: { kind: "beat-wanders", voice: "ride", beat: 3 + 2 / 3, spreadMs: 31 },
    expected: "The ride on the last triplet of three wanders. Work on that one.",
  },
  {
    workOn: { kind: "beat-wanders", voice: "hi-hat-closed", beat: 1, spreadMs: 11 },
    expected: "What is left is fine work: the hi-hat on one could sit more evenly.",
  },
  {
    workOn: { kind: "beat-leans", voice: "snare", beat: 4, leanMs: 12 },
    expected: "What is left is fine work: the snare on four lies 12 ms behind the rest, which may be feel.",
  },
  {
    workOn: { kind: "beat-leans", voice: "snare", beat: 4, leanMs: -14 },
    expected: "What is left is fine work: the snare on four lies 14 ms ahead of the rest, which may be feel.",
  },
  {
    workOn: { kind: "beat-leans", voice: "kick", beat: 1, leanMs: 24.4 },
    expected: "The kick on one comes late, by 24 ms. Bring it forward.",
  },
  {
    workOn: { kind: "beat-leans", voice: "kick", beat: 12, leanMs: -24.6 },
    expected: "The kick on twelve comes early, by 25 ms. Let it settle.",
  },
  {
    workOn: { kind: "left-out", voice: "kick", count: 1, written: 8 },
    expected: "The kick was left out once. Count it in.",
  },
  {
    workOn: { kind: "left-out", voice: "kick", count: 2, written: 8 },
    expected: "The kick was left out twice. Count it in.",
  },
  {
    workOn: { kind: "left-out", voice: "kick", count: 5, written: 8 },
    expected: "The kick was left out five times. Count it in.",
  },
  {
    workOn: { kind: "left-out", voice: "hi-hat-pedal", count: 8, written: 8 },
    expected: "The hi-hat pedal is still to come in. Add it, slowly.",
  },
  {
    workOn: { kind: "other-sound", voice: "snare", heard: "mid-tom", count: 3 },
    expected:
      "The mid tom answered where the snare is written, three times. The rhythm holds; move the sound.",
  },
  {
    workOn: { kind: "added", voice: "crash-left", count: 1 },
    expected: "The crash left had a stroke more than written. Leave room.",
  },
  {
    workOn: { kind: "added", voice: "kick", count: 4 },
    expected: "The kick had four strokes more than written. Leave room.",
  },
  {
    workOn: { kind: "drift", percent: 1.2 },
    expected: "Gained 1 in 100 over the take. Breathe, and let the time come to you.",
  },
  {
    workOn: { kind: "drift", percent: -1.2 },
    expected: "Lost 1 in 100 over the take. Keep the hands moving and count aloud.",
  },
  {
    workOn: { kind: "touch", voice: "snare", touch: "heavy", count: 13 },
    expected: "The snare was louder than written 13 times. Keep the stick low.",
  },
  {
    workOn: { kind: "touch", voice: "snare", touch: "ghosted", count: 4 },
    expected: "The snare was softer than written four times. Let it speak.",
  },
  {
    workOn: { kind: "nothing" },
    expected: "Nothing stands out: what differs is too small to hear. Enjoy it.",
  },
  {
    workOn: { kind: "no-match" },
    expected: "This was something else than what is written. Listen once more, then play it slowly.",
  },
];
test.each(WORK)("$workOn.kind: $expected", ({ workOn, expected }) => {
  expect(workOnWords(workOn)).toBe(expected);
});

const FIGURES = {
  voice: "snare",
  count: 7,
  leanMs: 0,
  spreadMs: 5,
  written: 8,
  asWritten: 6,
  otherSound: [{ voice: "mid-tom", count: 1 }],
  leftOut: 1,
  added: 0,
  touch: { asWritten: 5, ghosted: 1, heavy: 0 },
} as const;

test("rows of the voice table", () => {
  expect(voiceWords(FIGURES)).toBe("6 as written, 1 other sound (mid tom), 1 left out");
  expect(voiceWords({ ...FIGURES, asWritten: 0, otherSound: [], leftOut: 0, added: 2 })).toBe("2 added");
  expect(touchWords(FIGURES.touch)).toBe("5 as written, 1 ghosted");
  expect(touchWords({ asWritten: 0, ghosted: 0, heavy: 0 })).toBe("not told");
});

test("places and numbers", () => {
  expect(placeWords(14, 12.5)).toBe("behind, 14 ms");
  expect(placeWords(-14, 12.5)).toBe("ahead, 14 ms");
  expect(placeWords(9, 12.5)).toBe("in the pocket");
  expect([1, 4, 12, 13].map(numberWord)).toEqual(["one", "four", "twelve", "13"]);
});
