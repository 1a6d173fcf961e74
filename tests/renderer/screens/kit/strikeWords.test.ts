import { expect, test } from "vitest";
import type { Hit } from "../../../../engine/kit/index.ts";
import { opennessWords, strikeLine, timeWords } from "../../../../renderer/screens/kit/strikeWords.ts";

const hit: Hit = {
  time: 62.3456,
  voice: "hi-hat-open",
  zone: "edge",
  velocity: 80 / 127,
  openness: 0.5,
  pad: 26,
};

test("a strike is told with where, how open, how strong, which key and when", () => {
  expect(strikeLine({ kind: "hit", hit })).toEqual({
    what: "open hi-hat",
    how: "edge, half open",
    strength: "80",
    key: "26",
    time: "1:02.346",
  });
});

test("an unknown pad is told by its key", () => {
  const unknown: Hit = { time: 1, voice: "unknown", zone: "whole", velocity: 1, pad: 96 };
  expect(strikeLine({ kind: "hit", hit: unknown })).toMatchObject({ what: "unknown pad, key 96", how: "" });
});

test("a double trigger is shown as one", () => {
  expect(strikeLine({ kind: "retrigger", hit })?.how).toBe("double trigger, left out");
});

test("a cymbal that is grabbed and let go", () => {
  const choke = { kind: "choke", time: 1, voice: "crash-left", pad: 49 } as const;
  expect(strikeLine({ ...choke, held: true })).toMatchObject({
    what: "crash left",
    how: "choked",
    strength: "",
  });
  expect(strikeLine({ ...choke, held: false })?.how).toBe("let go");
});

test("a movement of the pedal is no strike", () => {
  expect(strikeLine({ kind: "hi-hat", time: 1, openness: 0.3 })).toBeUndefined();
});

test.each([
  [0, "shut"],
  [0.2, "a little open"],
  [0.5, "half open"],
  [0.8, "nearly open"],
  [1, "wide open"],
])("openness %f is %s", (openness, words) => {
  expect(opennessWords(openness)).toBe(words);
});

test("time is told in minutes, seconds and thousandths", () => {
  expect(timeWords(0.0004)).toBe("0:00.000");
  expect(timeWords(600.5)).toBe("10:00.500");
});
