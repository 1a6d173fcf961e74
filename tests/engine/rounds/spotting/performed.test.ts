import { describe, expect, test } from "vitest";
import { readBody, shelfEntry } from "../../../../engine/catalogue/index.ts";
import {
  drawPerformance,
  FILL_BARS,
  GROOVE_BARS,
  grooveAround,
  performedStrokes,
  STOCK_TO_SPOT,
  spottableOnShelf,
} from "../../../../engine/rounds/index.ts";
import { beatsPerBar, metreName } from "../../../../engine/score/index.ts";
import { seededChance } from "../../../../engine/units/index.ts";

describe.each(STOCK_TO_SPOT.map((each) => [each.thing.name, each] as const))("%s", (_, spottable) => {
  test("is played the same again, within its bars", () => {
    const performance = drawPerformance(spottable, seededChance(3));
    const strokes = performedStrokes(spottable, performance);
    expect(strokes.length).toBeGreaterThan(6);
    expect(performedStrokes(spottable, performance)).toEqual(strokes);
    const written = spottable.ways[performance.way];
    if (!written || written.kind === "part") throw new Error("No part is in the stock.");
    const bars = written.kind === "fill" ? FILL_BARS + 1 : Math.max(GROOVE_BARS, written.music.bars);
    const seconds = (bars * beatsPerBar(written.music.metre) * 60) / performance.tempoBpm;
    // A stroke may be some hundredths of a second early or late.
    expect(strokes.at(-1)?.time).toBeLessThan(seconds + 0.1);
  });
});

test("a fill stands in a groove of its metre that goes at its tempo", () => {
  for (const { ways } of STOCK_TO_SPOT) {
    const [written] = ways;
    if (written?.kind !== "fill") continue;
    const { metre, tempoBpm, id } = written.music;
    const groove = grooveAround(written.music);
    expect(metreName(groove.metre), id).toBe(metreName(metre));
    expect(groove.tempoBpm.low, id).toBeLessThanOrEqual(tempoBpm.high);
    expect(groove.tempoBpm.high, id).toBeGreaterThanOrEqual(tempoBpm.low);
  }
});

describe("of the Shelf", () => {
  const about = { from: { kind: "written" as const }, madeAtMs: 0 };
  const groove = readBody("groove", "metre: 4/4\ntempo: 60-90\nkick | x... |", { id: "own/1", name: "One" });
  const phrase = readBody("phrase", "role: call\nmetre: 4/4\ntempo: 60-90\nkick | x... |", {
    id: "own/2",
    name: "Two",
  });
  const part = readBody(
    "part",
    [
      "section: Verse",
      "tempo: 92",
      "play: quarters, 20 bars",
      "groove: quarters",
      "name: Quarters",
      "metre: 4/4",
      "tempo: 80-140",
      "kick | xxxx |",
    ].join("\n"),
    { id: "own/3", name: "River road" },
  );

  test("grooves, fills and drum parts by all their names; no phrase, nothing of the stock", () => {
    const entries = [
      shelfEntry(groove, { ...about, id: "own/1", name: "One", alsoNamed: ["The one from March"] }),
      shelfEntry(phrase, { ...about, id: "own/2", name: "Two" }),
      shelfEntry(part, { ...about, id: "own/3", name: "River road" }),
      shelfEntry(groove, { ...about, id: "style/samba", name: "Samba", from: { kind: "catalogue" } }),
    ];
    expect(spottableOnShelf(entries).map(({ thing, names }) => [thing.kind, thing.id, names])).toEqual([
      ["groove", "own/1", ["One", "The one from March"]],
      ["part", "own/3", ["River road"]],
    ]);
  });

  test("the beginning of a drum part is played, as fast as it is asked for", () => {
    const [spottable] = spottableOnShelf([shelfEntry(part, { ...about, id: "own/3", name: "River road" })]);
    if (!spottable) throw new Error("The part is on the Shelf.");
    const strokes = performedStrokes(spottable, { way: 0, tempoBpm: 60, seed: 1 });
    expect(strokes[1]?.time).toBeCloseTo(1);
    // Eight of its twenty bars.
    expect(strokes).toHaveLength(32);
    expect(drawPerformance(spottable, () => 0.5).tempoBpm).toBe(92);
  });
});
