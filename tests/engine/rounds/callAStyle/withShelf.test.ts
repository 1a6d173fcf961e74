import { describe, expect, test } from "vitest";
import { demonstrate, FILLS, NOTHING_OF_SHELF } from "../../../../engine/catalogue/index.ts";
import type { Hit } from "../../../../engine/kit/index.ts";
import { calledStock } from "../../../../engine/rounds/callAStyle/takeListener.ts";
import { judgeTake, stockOfPlayer, TakeListener, withShelf } from "../../../../engine/rounds/index.ts";
import { type Fill, type Groove, type Part, parseFill, parseGrid } from "../../../../engine/score/index.ts";
import { seededChance } from "../../../../engine/units/index.ts";
import { steadily, writtenGrooveOf } from "../../listening/played.ts";

/** Made up, and like no style: the floor tom leads, the kick answers. */
const MILL = parseGrid(`groove: own/mill
name: Mill wheel
metre: 4/4
tempo: 80-110

floor-tom | x.x. xx.x .x.x x.xx |
snare     | .... .x.. .... .x.. |
kick      | .x.. ..x. x.x. .x.. |`);
const BOSSA = writtenGrooveOf("bossa-nova");
const COPY = { ...BOSSA, id: "own/copy", name: "Our bossa" };
const heardIn = (take: ReturnType<typeof judgeTake>) =>
  take.hearing.kind === "heard" && take.hearing.known ? take.hearing.candidates[0]?.id : undefined;

test("a groove of the Shelf is named when it is played, and the take is laid beside it", () => {
  const hits = steadily(MILL);
  const take = { hits, styleId: null, click: null };
  expect(heardIn(judgeTake(take))).not.toBe("own/mill");
  const judged = judgeTake(take, withShelf({ ...NOTHING_OF_SHELF, grooves: [MILL] }));
  expect(heardIn(judged)).toBe("own/mill");
  expect(judged.compared?.groove).toEqual(MILL);
  expect(judged.compared?.report.voices.every(({ written, asWritten }) => asWritten > 0.9 * written)).toBe(
    true,
  );
});

test("it can be called as a style is", () => {
  const judged = judgeTake(
    { hits: steadily(MILL), styleId: "own/mill", click: null },
    withShelf({ ...NOTHING_OF_SHELF, grooves: [MILL] }, "own/mill"),
  );
  expect(heardIn(judged)).toBe("own/mill");
  expect(judged.compared?.groove.id).toBe("own/mill");
});

test("the styles are still named beside it", () => {
  for (const id of ["bossa-nova", "rock-eighths", "samba"]) {
    const take = { hits: steadily(writtenGrooveOf(id)), styleId: null, click: null };
    expect(heardIn(judgeTake(take, withShelf({ ...NOTHING_OF_SHELF, grooves: [MILL] })))).toBe(id);
  }
});

test("a copy of a style, stroke for stroke, takes nothing from its certainty, and can be called all the same", () => {
  expect(withShelf({ ...NOTHING_OF_SHELF, grooves: [COPY] }).grooves.map(({ id }) => id)).not.toContain(
    "own/copy",
  );
  const called = withShelf({ ...NOTHING_OF_SHELF, grooves: [COPY] }, "own/copy");
  expect(called.grooves.map(({ id }) => id)).toContain("own/copy");
  const judged = judgeTake({ hits: steadily(BOSSA), styleId: "own/copy", click: null }, called);
  expect(judged.compared?.groove.id).toBe("own/copy");
});

test("two of the Shelf that are alike are listened for once", () => {
  const twin = { ...MILL, id: "own/twin" };
  const ids = withShelf({
    ...NOTHING_OF_SHELF,
    grooves: [MILL, twin, { ...MILL, id: "own/silent", notes: [] }],
  }).grooves.map(({ id }) => id);
  expect(ids.filter((id) => id.startsWith("own/"))).toEqual(["own/mill"]);
});

test("how the player played it before is learnt as of a style", () => {
  const stock = withShelf({ ...NOTHING_OF_SHELF, grooves: [MILL] });
  const own = stockOfPlayer([{ styleId: "own/mill", takes: [steadily(MILL)] }], stock);
  const models = (from: typeof stock) => from.grooves.find(({ id }) => id === "own/mill")?.models.length ?? 0;
  expect(models(own)).toBeGreaterThan(models(stock));
});

describe("fills and drum parts", () => {
  const ROCK = writtenGrooveOf("rock-eighths");
  const LOFT = parseFill(`fill: own/loft
name: Loft stairs
level: steady
metre: 4/4
tempo: 80-120

snare     | .... .... x.x. .... |
high-tom  | .... .... .x.x .x.. |
floor-tom | .... .... .... x.xx |`);
  const ROAD: Part = {
    id: "own/road",
    name: "River road",
    sections: [
      { name: "Verse", tempoBpm: 100, times: 1, passages: [{ groove: ROCK, bars: 4, fill: LOFT }] },
      { name: "Chorus", tempoBpm: 100, times: 1, passages: [{ groove: BOSSA, bars: 4 }] },
    ],
  };
  const shelf = { ...NOTHING_OF_SHELF, fills: [LOFT], parts: [ROAD] };

  /** Grooves one after another as a person plays them, a fill in the last of the first's bars. */
  function inARow(grooves: readonly Groove[], fill?: Fill): readonly Hit[] {
    const chance = seededChance(3);
    const hand = { tempoBpm: 100, bars: 4, leanMs: 4, spreadMs: 9, leftOut: 0, added: 0, chance };
    return grooves.flatMap((groove, index) =>
      demonstrate(groove, { ...hand, fills: fill && index === 0 ? [{ fill, bar: 4 }] : [] }).map(
        (stroke): Hit => ({ ...stroke, time: stroke.time + index * 9.6, zone: "whole", pad: 0 }),
      ),
    );
  }
  const partIn = (hits: readonly Hit[]) => {
    const { hearing } = judgeTake({ hits, styleId: null, click: null }, withShelf(shelf));
    return hearing.kind === "heard" ? hearing.part?.id : undefined;
  };

  test("an own fill is set apart under its name", () => {
    const take = { hits: inARow([ROCK, ROCK], LOFT), styleId: null, click: null };
    const namesIn = ({ hearing }: ReturnType<typeof judgeTake>) =>
      hearing.kind === "heard" ? hearing.fills.map(({ id }) => id) : [];
    expect(namesIn(judgeTake(take, withShelf(shelf)))).toEqual(["own/loft"]);
    expect(namesIn(judgeTake(take))).not.toContain("own/loft");
  });

  test("a fill of the catalogue under another name is not listened for a second time", () => {
    const copies = FILLS.map((fill) => ({ ...fill, id: `own/${fill.id}` }));
    expect(withShelf({ ...NOTHING_OF_SHELF, fills: copies }).fills).toHaveLength(FILLS.length);
  });

  test("an own part is told, whole, and by a section with something of its own", () => {
    expect(partIn(inARow([ROCK, BOSSA], LOFT))).toBe("own/road");
    expect(partIn(inARow([ROCK], LOFT))).toBe("own/road");
  });

  test("the groove it is made of is still the groove, and another tune is no part", () => {
    expect(partIn(inARow([ROCK]))).toBeUndefined();
    expect(partIn(inARow([ROCK, ROCK]))).toBeUndefined();
    expect(partIn(inARow([writtenGrooveOf("songo"), ROCK], LOFT))).toBeUndefined();
  });

  test("nothing of it is told while it is played, nor where a style was called", () => {
    const hits = inARow([ROCK, BOSSA], LOFT);
    const listener = new TakeListener(null, withShelf(shelf));
    for (const hit of hits) listener.add(hit);
    expect(listener.hearing()).not.toHaveProperty("part");
    expect(calledStock(withShelf(shelf), "rock-eighths")).not.toHaveProperty("parts");
  });
});
