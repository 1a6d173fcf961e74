import { expect, test } from "vitest";
import { demonstrate, FILLS, grooveById } from "../../../../engine/catalogue/index.ts";
import { hear } from "../../../../engine/listening/index.ts";
import { type About, proposalOf, STOCK } from "../../../../engine/rounds/index.ts";
import { seededChance } from "../../../../engine/units/index.ts";

const ROCK = grooveById("rock-eighths");
const FILL = FILLS.find(({ id }) => id === "sixteenths-down-the-toms");

function heard(withFill: boolean) {
  if (!ROCK || !FILL) throw new Error("They are of the catalogue.");
  const strokes = demonstrate(ROCK, {
    tempoBpm: 90,
    bars: 8,
    leanMs: 4,
    spreadMs: 9,
    leftOut: 0,
    added: 0,
    fills: withFill ? [{ fill: FILL, bar: 4, thenCrash: true }] : [],
    chance: seededChance(5),
  });
  return hear(
    strokes.map((stroke) => ({ ...stroke, zone: "whole" as const, pad: 0 })),
    STOCK,
  );
}

test.each<[About, boolean, string | undefined]>([
  ["grooves", true, "rock-eighths"],
  ["grooves", false, "rock-eighths"],
  ["fills", true, "sixteenths-down-the-toms"],
  ["both", true, "sixteenths-down-the-toms"],
  ["both", false, "rock-eighths"],
])("%s, with a fill %s: %s", (about, withFill, id) => {
  expect(proposalOf(heard(withFill), about)?.thing.id).toBe(id);
});

test("a drum part stands before the groove it is made of; where a fill is asked for, it is none", () => {
  const hearing = heard(true);
  if (hearing.kind !== "heard") throw new Error("It was played.");
  const part = { id: "own/river-road", name: "River road", confidence: 0.8 };
  const thing = { kind: "part", id: "own/river-road", name: "River road" };
  expect(proposalOf({ ...hearing, part }, "grooves")).toEqual({ thing, confidence: 0.8 });
  expect(proposalOf({ ...hearing, part }, "fills")?.thing.kind).toBe("fill");
});

test("nothing is proposed of nothing", () => {
  expect(proposalOf({ kind: "nothing", reason: "no-hits" }, "both")).toBeNull();
});
