import { expect, test } from "vitest";
import type { Heard } from "../../../../engine/listening/index.ts";
import { heardAsCalled } from "../../../../engine/rounds/callAStyle/asCalled.ts";

function heard(
  tempoBpm: number,
  confidences: Readonly<Record<string, number>>,
  noneConfidence: number,
): Heard {
  return {
    kind: "heard",
    pulse: { tempoBpm, metre: { numerator: 4, denominator: 4 }, beats: [], downbeats: [], confidence: 0.9 },
    doubt: { between: 0, one: 0 },
    span: { from: 0, to: 10, bars: 4 },
    swing: null,
    fills: [],
    fillCandidates: [],
    candidates: Object.entries(confidences)
      .sort(([, a], [, b]) => b - a)
      .map(([id, confidence], index) => ({
        id,
        name: id,
        confidence,
        why: { rather: [], but: `${tempoBpm} a minute, place ${index}` },
      })),
    noneConfidence,
    known: Math.max(...Object.values(confidences)) > noneConfidence,
  };
}

const ambiguous = heard(160, { "half-time": 0.75, "rock-sixteenths": 0.15, shuffle: 0 }, 0.1);
const alone = heard(80, { "rock-sixteenths": 0.9 }, 0.1);

test("where two readings are possible the call decides, and brings its own pulse and evidence", () => {
  const hearing = heardAsCalled(ambiguous, alone, "rock-sixteenths");
  expect(hearing.candidates[0]).toMatchObject({
    id: "rock-sixteenths",
    why: { but: "80 a minute, place 0" },
  });
  expect(hearing.pulse.tempoBpm).toBe(80);
  expect(hearing.known).toBe(true);
});

test("a style that was not played is not heard because it was called", () => {
  const hearing = heardAsCalled(ambiguous, heard(120, { shuffle: 0.2 }, 0.8), "shuffle");
  expect(hearing.candidates[0]?.id).toBe("half-time");
  expect(hearing.pulse.tempoBpm).toBe(160);
});

test("what is none of the known styles stays none", () => {
  const none = heard(100, { samba: 0.01, shuffle: 0.01 }, 0.98);
  expect(heardAsCalled(none, heard(100, { samba: 0.02 }, 0.98), "samba").known).toBe(false);
});

test("the chances still sum to one", () => {
  const { candidates, noneConfidence } = heardAsCalled(ambiguous, alone, "rock-sixteenths");
  expect(candidates.reduce((sum, { confidence }) => sum + confidence, noneConfidence)).toBeCloseTo(1, 12);
});

test("a call that agrees with the ear makes it surer", () => {
  const before = ambiguous.candidates[0]?.confidence ?? 1;
  const hearing = heardAsCalled(ambiguous, ambiguous, "half-time");
  expect(hearing.candidates[0]?.confidence).toBeGreaterThan(before);
});
