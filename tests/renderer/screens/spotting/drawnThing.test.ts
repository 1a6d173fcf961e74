import { expect, test } from "vitest";
import {
  freshPlay,
  isSameThing,
  nameItem,
  type Play,
  type Spotting,
  STOCK_TO_SPOT,
  spottingRules,
  type Thing,
} from "../../../../engine/rounds/index.ts";
import { seededChance } from "../../../../engine/units/index.ts";
import { drawnThing, isAbout } from "../../../../renderer/screens/spotting/drawnThing.ts";
import type { Standing } from "../../../../renderer/screens/spotting/spottingPlace.ts";

const GROOVES = STOCK_TO_SPOT.filter(({ thing }) => thing.kind === "groove").slice(0, 6);
const MET: Standing = () => 0.3;

function draw(standings: readonly Standing[], play: Partial<Play<Spotting>> = {}, spottables = GROOVES) {
  const of = standings.map((_, at) => `student-${at}`);
  return drawnThing({ ...freshPlay(spottingRules), ...play }, { spottables, of, standings }, seededChance(3));
}

test("what not all of those who are asked have met is new", () => {
  const [first] = GROOVES;
  if (!first) throw new Error("There is no groove.");
  const metButOne: Standing = (thing) => (isSameThing(thing, first.thing) ? null : 0.3);
  expect(draw([MET], {}, [first])).toEqual({ spottable: first, isNew: false });
  expect(draw([MET, metButOne], {}, [first])).toEqual({ spottable: first, isNew: true });
});

test("what was dealt comes first; what is on the Shelf no longer is passed over", () => {
  const dealt = GROOVES[4];
  if (!dealt) throw new Error("There are too few grooves.");
  const items = ["style-name:gone", nameItem(dealt.thing)] as const;
  expect(draw([MET], { dealt: { items, nothingElse: false } })?.spottable).toBe(dealt);
});

test("only what the round is about is drawn, and nothing where there is none", () => {
  const own = { ...freshPlay(spottingRules).own, about: "fills" } as const;
  expect(draw([MET], { own })).toBeNull();
  expect(draw([MET], { own }, [...STOCK_TO_SPOT])?.spottable.thing.kind).toBe("fill");
});

test.each([
  ["groove", "grooves", true],
  ["part", "grooves", true],
  ["fill", "grooves", false],
  ["fill", "fills", true],
  ["part", "fills", false],
  ["fill", "both", true],
] as const)("a %s in a round about %s: %s", (kind, about, is) => {
  const thing: Thing = { kind, id: "any", name: "Any" };
  expect(isAbout(thing, about)).toBe(is);
});
