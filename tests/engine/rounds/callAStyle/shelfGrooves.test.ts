import { expect, test } from "vitest";
import { judgeTake, stockOfPlayer, withShelf } from "../../../../engine/rounds/index.ts";
import { parseGrid } from "../../../../engine/score/index.ts";
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
  const judged = judgeTake(take, withShelf([MILL]));
  expect(heardIn(judged)).toBe("own/mill");
  expect(judged.compared?.groove).toEqual(MILL);
  expect(judged.compared?.report.voices.every(({ written, asWritten }) => asWritten > 0.9 * written)).toBe(
    true,
  );
});

test("it can be called as a style is", () => {
  const judged = judgeTake(
    { hits: steadily(MILL), styleId: "own/mill", click: null },
    withShelf([MILL], "own/mill"),
  );
  expect(heardIn(judged)).toBe("own/mill");
  expect(judged.compared?.groove.id).toBe("own/mill");
});

test("the styles are still named beside it", () => {
  for (const id of ["bossa-nova", "rock-eighths", "samba"]) {
    const take = { hits: steadily(writtenGrooveOf(id)), styleId: null, click: null };
    expect(heardIn(judgeTake(take, withShelf([MILL])))).toBe(id);
  }
});

test("a copy of a style, stroke for stroke, takes nothing from its certainty, and can be called all the same", () => {
  expect(withShelf([COPY]).grooves.map(({ id }) => id)).not.toContain("own/copy");
  const called = withShelf([COPY], "own/copy");
  expect(called.grooves.map(({ id }) => id)).toContain("own/copy");
  const judged = judgeTake({ hits: steadily(BOSSA), styleId: "own/copy", click: null }, called);
  expect(judged.compared?.groove.id).toBe("own/copy");
});

test("two of the Shelf that are alike are listened for once", () => {
  const twin = { ...MILL, id: "own/twin" };
  const ids = withShelf([MILL, twin, { ...MILL, id: "own/silent", notes: [] }]).grooves.map(({ id }) => id);
  expect(ids.filter((id) => id.startsWith("own/"))).toEqual(["own/mill"]);
});

test("how the player played it before is learnt as of a style", () => {
  const stock = withShelf([MILL]);
  const own = stockOfPlayer([{ styleId: "own/mill", takes: [steadily(MILL)] }], stock);
  const models = (from: typeof stock) => from.grooves.find(({ id }) => id === "own/mill")?.models.length ?? 0;
  expect(models(own)).toBeGreaterThan(models(stock));
});
