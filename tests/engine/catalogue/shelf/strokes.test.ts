import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  cycled,
  type Place,
  placesInABeat,
  placesOfBar,
  readBody,
  strokeAt,
  withDynamic,
  withOneMoreBar,
  withOrnament,
  withoutLastBar,
  withVoice,
} from "../../../../engine/catalogue/index.ts";
import { type Groove, parseGrid, printGrid } from "../../../../engine/score/index.ts";
import { fraction } from "../../../../engine/units/index.ts";

const grid = (body: string): Groove => {
  const { kind, music } = readBody("groove", body, { id: "a", name: "A" });
  if (kind !== "groove") throw new Error("A groove was asked for.");
  return music;
};
const ROCK = grid("metre: 4/4\ntempo: 80-120\nsnare | .... x... .... X..g |\nkick | x... .... x.x. .... |");
const TWO = grid("metre: 3/4\ntempo: 80-120\nkick | x.. | .x. |");
const at = (voice: Place["voice"], num: number, den = 1): Place => ({ voice, position: fraction(num, den) });

describe("places", () => {
  test.each([
    ["sixteenths", ROCK, 4],
    ["quarters have sixteenths to put between", TWO, 4],
    ["triplets", grid("metre: 4/4\ntempo: 80-120\nride | x.xx.xx.xx.x |"), 3],
    [
      "triplets beside sixteenths",
      grid("metre: 4/4\ntempo: 80-120\nride | x.xx.xx.xx.x |\nkick | xxxx xxxx xxxx xxxx |"),
      12,
    ],
    ["compound", grid("metre: 12/8\ntempo: 80-120\nride | xxx xxx xxx xxx |"), 3],
    ["felt eighths", grid("metre: 7/8\ntempo: 200-300\nride | xxxxxxx |"), 2],
    ["quintuplets", grid("metre: 1/4\ntempo: 80-120\nride | x.x.x |"), 5],
  ])("%s", (_, groove, places) => {
    expect(placesInABeat(groove)).toBe(places);
    for (const { position } of groove.notes)
      expect(
        Array.from({ length: groove.bars }, (_, bar) => placesOfBar(groove, bar, places)).flat(),
      ).toContainEqual(position);
  });

  test("too fine to be pressed are none", () => {
    expect(placesInABeat(grid(`metre: 1/4\ntempo: 80-120\nride | ${"x".repeat(13)} |`))).toBeUndefined();
  });
});

describe("a stroke", () => {
  test("goes from silence to plain, accent, ghost and back", () => {
    const place = at("snare", 1, 4);
    const steps = [1, 2, 3, 4].reduce<readonly Groove[]>(
      (all) => [...all, cycled(all.at(-1) ?? ROCK, place)],
      [ROCK],
    );
    expect(steps.map((groove) => strokeAt(groove, place)?.dynamic)).toEqual([
      undefined,
      "plain",
      "accent",
      "ghost",
      undefined,
    ]);
    expect(steps.at(-1)).toEqual(ROCK);
  });

  test("keeps its ornament and hand when its dynamic changes, and loses a flam that is set again", () => {
    const place = at("snare", 1);
    const handed = { ...ROCK, notes: ROCK.notes.map((note) => ({ ...note, hand: "R" as const })) };
    const flammed = withOrnament(handed, place, "flam");
    expect(strokeAt(withDynamic(flammed, place, "ghost"), place)).toMatchObject({
      dynamic: "ghost",
      ornament: "flam",
      hand: "R",
    });
    expect(strokeAt(withOrnament(flammed, place, "drag"), place)?.ornament).toBe("drag");
    expect(withOrnament(flammed, place, "flam")).toEqual(handed);
    expect(withOrnament(ROCK, at("snare", 0), "flam")).toBe(ROCK);
  });
});

test("whatever is set, the text gives it back", () => {
  const place = fc.record({
    voice: fc.constantFrom("snare", "kick", "ride" as const),
    sixteenth: fc.integer({ min: 0, max: 15 }),
    act: fc.constantFrom("cycle", "flam", "drag"),
  });
  fc.assert(
    fc.property(fc.array(place, { maxLength: 30 }), (presses) => {
      const after = presses.reduce(
        (groove, { voice, sixteenth, act }) => {
          const where = { voice, position: fraction(sixteenth, 4) } as Place;
          return act === "cycle"
            ? cycled(groove, where)
            : withOrnament(groove, where, act as "flam" | "drag");
        },
        withVoice(ROCK, "ride"),
      );
      expect(parseGrid(printGrid(after))).toEqual(after);
    }),
  );
});

test("a bar is added as the last one was, and taken away again", () => {
  const three = withOneMoreBar(TWO);
  expect(three.bars).toBe(3);
  expect(three.notes.map(({ position }) => position)).toEqual([fraction(0), fraction(4), fraction(7)]);
  expect(withoutLastBar(three)).toEqual(TWO);
  expect(withoutLastBar(ROCK)).toBe(ROCK);
  expect(parseGrid(printGrid(three))).toEqual(three);
});

test("a voice gets a line once", () => {
  expect(withVoice(ROCK, "ride").voices).toEqual(["snare", "kick", "ride"]);
  expect(withVoice(ROCK, "kick")).toBe(ROCK);
});
