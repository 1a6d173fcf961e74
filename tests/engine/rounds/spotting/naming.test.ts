import { describe, expect, test } from "vitest";
import { STYLES, STYLES_WITH_NAMES, styleById } from "../../../../engine/catalogue/index.ts";
import { STOCK_TO_SPOT, type ThingMatch, ThingNames } from "../../../../engine/rounds/index.ts";

const GROOVES = STOCK_TO_SPOT.filter(({ thing }) => thing.kind === "groove");
const FILLS = STOCK_TO_SPOT.filter(({ thing }) => thing.kind === "fill");
const grooves = new ThingNames(GROOVES);
const fills = new ThingNames(FILLS);

function told(match: ThingMatch): string | readonly string[] | null {
  if (match.kind === "named") return match.spottable.thing.id;
  return match.kind === "ask" ? match.among.map(({ thing }) => thing.id) : null;
}

test("other names are said of styles there are, and no two styles share one", () => {
  for (const id of STYLES_WITH_NAMES) expect(styleById(id), id).toBeDefined();
  const all = GROOVES.flatMap(({ names }) => names.map((name) => name.toLowerCase()));
  const twice = all.filter((name, place) => all.indexOf(name) !== place);
  expect(twice).toEqual([]);
  expect(GROOVES).toHaveLength(STYLES.length);
});

test.each(GROOVES.flatMap(({ thing, names }) => names.map((name) => [name, thing.id] as const)))(
  "%s is %s",
  (name, id) => {
    expect(told(grooves.match(name))).toBe(id);
    expect(told(grooves.match(name.toUpperCase()))).toBe(id);
  },
);

test.each(FILLS.flatMap(({ thing, names }) => names.map((name) => [name, thing.id] as const)))(
  "the fill %s is %s",
  (name, id) => expect(told(fills.match(name))).toBe(id),
);

describe("as people write", () => {
  test.each([
    ["bosa nova", "bossa-nova"],
    ["the bossanova", "bossa-nova"],
    ["chacha", "cha-cha"],
    ["raggaeton", "reggaeton"],
    ["regaeton", "reggaeton"],
    ["merengay", "merengue"],
    ["shufle", "shuffle"],
    ["half time shufle", "half-time-shuffle"],
    ["trian beat", "train-beat"],
    ["rumbah", "rumba"],
    ["baion", "baiao"],
    ["secondline", "second-line"],
    ["four on the flor", "four-on-the-floor"],
    ["five four", "five-four"],
    ["7/8", "seven-eight"],
  ])("%s is %s", (given, id) => expect(told(grooves.match(given))).toBe(id));

  test.each(["wobble", "salsa", "triplet shuffle", "quadruple time", "polonaise", "xyz", "", "   "])(
    "%j is no style",
    (given) => expect(grooves.match(given).kind).not.toBe("named"),
  );
});

test("while it is typed, those whose names hold all of it are offered", () => {
  expect(grooves.offered("").map(({ thing }) => thing.id)).toEqual([]);
  expect(grooves.offered("nova").map(({ thing }) => thing.id)).toEqual(["bossa-nova"]);
  // By another name only where no usual name holds it.
  expect(grooves.offered("rock").map(({ thing }) => thing.id)).not.toContain("half-time");
  expect(grooves.offered("cascara").map(({ thing }) => thing.id)).toEqual(["mambo"]);
  expect(grooves.offered("hip-hop").map(({ thing }) => thing.id)).toEqual(["boom-bap"]);
  expect(fills.offered("triplets down").map(({ thing }) => thing.id)).toEqual([
    "sixteenth-triplets-down-the-toms",
  ]);
});
