import { expect, test } from "vitest";
import type { HeardSummary } from "../../../../../engine/rooms/index.ts";
import {
  figuresWords,
  heardWords,
  leanWords,
  playedAs,
} from "../../../../../renderer/screens/desk/lab/labWords.ts";

const HEARD: HeardSummary = {
  styleId: "bossa-nova",
  styleName: "Bossa nova",
  confidence: 0.97,
  tempoBpm: 131.6,
  leanMs: -12.4,
  spreadMs: 8.7,
  voiceAccuracy: 0.982,
};

test.each<[string, HeardSummary | null, number, string, boolean]>([
  ["nothing was struck", null, 0, "nothing yet", false],
  ["nothing was told", null, 40, "listening", false],
  ["a style is sure", HEARD, 40, "Bossa nova", false],
  ["a style is doubtful", { ...HEARD, confidence: 0.6 }, 40, "Bossa nova", true],
  ["no style, but a pulse", { ...HEARD, styleName: null }, 40, "none it knows", false],
  ["no pulse", { ...HEARD, styleName: null, tempoBpm: null }, 40, "nothing with a pulse", false],
])("%s", (_, heard, strikes, words, isDoubtful) => {
  expect(playedAs({ heard, strikes })).toEqual({ words, isDoubtful });
  expect(heardWords({ heard, strikes })).toBe(isDoubtful ? `${words}, perhaps` : words);
});

test("lean is told only against a click", () => {
  expect(leanWords({ heard: HEARD })).toBe("12 ms ahead");
  expect(leanWords({ heard: { ...HEARD, leanMs: null } })).toBe("no click");
  expect(leanWords({ heard: null })).toBe("–");
});

test("the small figures are those that are known", () => {
  expect(figuresWords({ heard: HEARD })).toBe("spread 9 ms, 98 in 100 as written, 132 a minute");
  expect(figuresWords({ heard: { ...HEARD, voiceAccuracy: null } })).toBe("spread 9 ms, 132 a minute");
  expect(figuresWords({ heard: null })).toBe("");
});
