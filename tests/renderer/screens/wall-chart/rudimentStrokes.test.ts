import { expect, test } from "vitest";
import { type Rudiment, rudimentById, rudimentGroove } from "../../../../engine/catalogue/index.ts";
import { rudimentStrokes } from "../../../../renderer/screens/wall-chart/rudimentStrokes.ts";

function rudiment(id: string): Rudiment {
  const found = rudimentById(id);
  if (!found) throw new Error(`There is no ${id}.`);
  return found;
}

test.each([
  ["single-paradiddle", 0],
  ["flam", 1],
  ["drag", 2],
] as const)(
  "a %s sounds twice, each main stroke after %d graces, none before the beginning",
  (id, graces) => {
    const { notes } = rudimentGroove(rudiment(id));
    const strokes = rudimentStrokes(rudiment(id));
    const ornamented = notes.filter(({ ornament }) => ornament !== undefined).length;
    expect(strokes).toHaveLength(2 * (notes.length + ornamented * graces));
    expect(ornamented > 0).toBe(graces > 0);
    expect(Math.min(...strokes.map(({ time }) => time))).toBeGreaterThanOrEqual(0);
  },
);

test("the grace of a flam is softer than its main stroke, and just before it", () => {
  const [grace, main] = rudimentStrokes(rudiment("flam"));
  if (!grace || !main) throw new Error("A flam has two strokes.");
  expect(grace.velocity).toBeLessThan(main.velocity);
  expect(main.time - grace.time).toBeCloseTo(0.03);
});
