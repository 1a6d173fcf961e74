import { expect, test } from "vitest";
import { seededChance } from "../../../../engine/units/index.ts";
import { drawnRudiment } from "../../../../renderer/screens/wall-chart/drawnRudiment.ts";

const LIST = ["single-stroke-roll", "flam", "drag", "flam-tap"];

test("none comes again before all have been asked", () => {
  const chance = seededChance(2);
  const asked: string[] = [];
  for (let at = 0; at < 3 * LIST.length; at += 1) {
    const drawn = drawnRudiment(LIST, asked, chance);
    if (drawn === undefined) throw new Error("Nothing was drawn.");
    asked.push(drawn);
  }
  for (const from of [0, 4, 8]) expect(new Set(asked.slice(from, from + 4))).toEqual(new Set(LIST));
});

test("of none, none is drawn", () => {
  expect(drawnRudiment([], [], seededChance(1))).toBeUndefined();
});
