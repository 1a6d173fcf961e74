import { describe, expect, test } from "vitest";
import { FAMILIES, grooveById, STYLES, styleById, stylesOf } from "../../../engine/catalogue/index.ts";
import type { Voice } from "../../../engine/kit/index.ts";
import { type Groove, isCompound, metreName } from "../../../engine/score/index.ts";
import { toNumber } from "../../../engine/units/index.ts";

const variants = STYLES.flatMap((style) =>
  style.variants.map((groove) => ({ style, groove, id: groove.id })),
);

/** The same tempo counted in quarters: in 7/8 the felt beat is an eighth. */
function inQuarters(groove: Groove, beatsPerMinute: number): number {
  return isCompound(groove.metre) ? beatsPerMinute : (beatsPerMinute * 4) / groove.metre.denominator;
}

describe("the stock", () => {
  test("has the styles of a working week, in every metre they are in", () => {
    expect(STYLES.length).toBeGreaterThanOrEqual(48);
    const metres = new Set(variants.map(({ groove }) => metreName(groove.metre)));
    expect([...metres].sort()).toEqual(["12/8", "2/4", "3/4", "4/4", "5/4", "6/8", "7/8"]);
    for (const { id } of STYLES) expect(id).toMatch(/^[a-z]+(-[a-z]+)*$/);
    expect(STYLES.filter((style) => style.variants.length < 2)).toEqual([]);
  });

  test("is grouped by family, in the order of the families, with at least two styles in each", () => {
    expect(FAMILIES.flatMap(stylesOf)).toEqual(STYLES);
    expect(FAMILIES.filter((family) => stylesOf(family).length < 2)).toEqual([]);
  });

  test("no id is given twice, and each finds its own", () => {
    const ids = variants.map(({ id }) => id);
    expect(new Set(ids).size).toBe(ids.length);
    expect(new Set(STYLES.map(({ name }) => name)).size).toBe(STYLES.length);
    for (const { id, groove } of variants) expect(grooveById(id)).toBe(groove);
    for (const style of STYLES) {
      expect(styleById(style.id)).toBe(style);
      expect(grooveById(style.id)).toBe(style.variants[0]);
    }
    expect(styleById("nothing")).toBeUndefined();
    expect(grooveById("nothing")).toBeUndefined();
  });

  test.each(STYLES)("$id: a sentence for what it is, where it comes from, and few variants", (style) => {
    expect(style.itself).toMatch(/^[A-Z].*\.$/);
    expect(style.source).toMatch(/common practice, no source|Groove MIDI Dataset|Toussaint/);
    expect(style.variants.length).toBeGreaterThanOrEqual(1);
    expect(style.variants.length).toBeLessThanOrEqual(4);
    style.variants.forEach(({ id, name, metre, feel, tempoBpm }, index) => {
      expect(id).toBe(index === 0 ? style.id : `${style.id}-${index + 1}`);
      expect({ name, metre, feel, tempoBpm }).toEqual({
        name: style.name,
        metre: style.variants[0]?.metre,
        feel: style.variants[0]?.feel,
        tempoBpm: style.variants[0]?.tempoBpm,
      });
    });
    const written = style.variants.map(({ notes }) =>
      JSON.stringify(notes.map(({ position, voice, dynamic }) => [toNumber(position), voice, dynamic])),
    );
    expect(new Set(written).size).toBe(written.length);
  });

  test.each(variants)(
    "$id: playable tempos, every voice struck, no voice twice at one place",
    ({ groove }) => {
      const { low, high } = groove.tempoBpm;
      expect(inQuarters(groove, low)).toBeGreaterThanOrEqual(50);
      expect(inQuarters(groove, high)).toBeLessThanOrEqual(260);
      expect(high / low).toBeGreaterThan(1.1);
      expect(high / low).toBeLessThan(2.5);
      expect(groove.bars).toBeLessThanOrEqual(2);
      const places = groove.notes.map(({ position, voice }) => `${voice} ${position.num}/${position.den}`);
      expect(new Set(places).size).toBe(places.length);
      for (const voice of groove.voices) expect(groove.notes.some((note) => note.voice === voice)).toBe(true);
      // Two hands: not more than two strokes by hand at one place, and one by each foot.
      const feet = new Set<Voice>(["kick", "hi-hat-pedal"]);
      for (const { position } of groove.notes) {
        const together = groove.notes.filter((note) => toNumber(note.position) === toNumber(position));
        expect(together.filter(({ voice }) => !feet.has(voice)).length).toBeLessThanOrEqual(2);
      }
    },
  );
});
