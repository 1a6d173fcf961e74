import { describe, expect, test } from "vitest";
import { RHYTHMS, RUDIMENTS, rudimentGroove, SIGNS } from "../../engine/catalogue/index.ts";
import { glyphOf } from "../../engraving/glyphs.ts";
import { type CardDrawing, engraveCard, GLYPH_CODES } from "../../engraving/index.ts";

const ALL: readonly (readonly [string, CardDrawing])[] = [
  ...SIGNS.map(({ id, drawn }) => [id, drawn] as const),
  ...RHYTHMS.map(({ id, groove }) => [id, { kind: "groove", groove }] as const),
  ...RUDIMENTS.map(
    (rudiment) => [rudiment.id, { kind: "groove", groove: rudimentGroove(rudiment) }] as const,
  ),
];

describe("cards", () => {
  test.each(ALL)("%s is drawn within its picture", (_, drawn) => {
    const { width, height, paths } = engraveCard(drawn, 10);
    const numbers = paths.flatMap(({ d }) => [...d.matchAll(/-?[\d.]+/g)].map(([text]) => Number(text)));
    expect(paths.length).toBeGreaterThan(0);
    expect(numbers.every(Number.isFinite)).toBe(true);
    const xs = paths.flatMap(({ d }) => coordinates(d, 0));
    const ys = paths.flatMap(({ d }) => coordinates(d, 1));
    expect(Math.min(...xs)).toBeGreaterThanOrEqual(-0.5);
    expect(Math.max(...xs)).toBeLessThanOrEqual(width + 0.5);
    expect(Math.min(...ys)).toBeGreaterThanOrEqual(-0.5);
    expect(Math.max(...ys)).toBeLessThanOrEqual(height + 0.5);
  });

  test("no two signs are drawn alike", () => {
    const drawings = SIGNS.map(({ drawn }) => JSON.stringify(engraveCard(drawn, 10)));
    expect(new Set(drawings).size).toBe(SIGNS.length);
  });

  test("every glyph of a card has its outline", () => {
    for (const code of Object.values(GLYPH_CODES))
      expect(glyphOf(String.fromCodePoint(code))?.outline.length).toBeGreaterThan(0);
  });

  test("twice the space is twice the size", () => {
    const sign = SIGNS[0];
    if (!sign) throw new Error("There is no sign.");
    const [small, large] = [engraveCard(sign.drawn, 10), engraveCard(sign.drawn, 20)];
    expect(Math.abs(large.width - 2 * small.width)).toBeLessThanOrEqual(2);
  });

  test("a whole rest hangs above the place where a half rest sits", () => {
    const top = (base: 1 | 2): number => {
      const { paths } = engraveCard({ kind: "rest", value: { base, dots: 0 } }, 10);
      return Math.min(...paths.filter(({ tone }) => tone === "ink").flatMap(({ d }) => coordinates(d, 1)));
    };
    // The block of the whole rest begins at the fourth line, that of the half rest half a space over the third.
    expect(top(2) - top(1)).toBeGreaterThan(3);
  });
});

/** The x (0) or y (1) of all points of a path. */
function coordinates(d: string, which: 0 | 1): readonly number[] {
  return [...d.matchAll(/[MLCQ]([^MLCQZ]*)/g)].flatMap(([, numbers = ""]) =>
    (numbers.match(/-?\d*\.?\d+/g) ?? []).map(Number).filter((_, at) => at % 2 === which),
  );
}
