/**
 * The outlines that are drawn: music signs of the font Bravura (SMuFL) and letters of Atkinson Hyperlegible, taken out
 * of their font files by scripts/glyphs.mjs. With outlines a picture needs no font where it is shown or printed, and
 * measuring needs no page.
 */
import lettering from "./glyphs/lettering.json" with { type: "json" };
import music from "./glyphs/music.json" with { type: "json" };

/** Straight and curved steps of an outline: a letter of SVG's path language and its absolute coordinates. */
export interface Step {
  readonly op: "M" | "L" | "C" | "Q" | "Z";
  /** x and y by turns. */
  readonly at: readonly number[];
}

/** A glyph in units of its em, y upwards from the baseline. */
export interface Glyph {
  readonly advance: number;
  readonly left: number;
  readonly bottom: number;
  readonly right: number;
  readonly top: number;
  readonly outline: readonly Step[];
}

interface FontData {
  readonly unitsPerEm: number;
  readonly glyphs: Readonly<Record<string, readonly (number | string)[]>>;
}

const fonts: readonly FontData[] = [music, lettering];
const read = new Map<string, Glyph | undefined>();

/** The glyph of a character, or `undefined` for one that is in neither list of scripts/glyphs.mjs. */
export function glyphOf(character: string): Glyph | undefined {
  if (read.has(character)) return read.get(character);
  const glyph = find(character);
  read.set(character, glyph);
  return glyph;
}

function find(character: string): Glyph | undefined {
  const key = (character.codePointAt(0) ?? 0).toString(16);
  for (const { unitsPerEm, glyphs } of fonts) {
    const data = glyphs[key];
    if (!data) continue;
    const [advance, left, bottom, right, top] = data.map((value) => Number(value) / unitsPerEm);
    const outline = String(data[5] ?? "");
    return {
      advance: advance ?? 0,
      left: left ?? 0,
      bottom: bottom ?? 0,
      right: right ?? 0,
      top: top ?? 0,
      outline: steps(outline, unitsPerEm),
    };
  }
  return undefined;
}

function steps(outline: string, unitsPerEm: number): readonly Step[] {
  return [...outline.matchAll(/([MLCQZ])([^MLCQZ]*)/g)].map(([, op, numbers]) => ({
    op: op === "M" || op === "L" || op === "C" || op === "Q" ? op : "Z",
    at: (numbers ?? "")
      .split(" ")
      .filter((number) => number !== "")
      .map((number) => Number(number) / unitsPerEm),
  }));
}

/** Room that lettering takes: width, and reach over and under the baseline, in units of the size. */
export function extentOf(text: string): {
  readonly width: number;
  readonly top: number;
  readonly bottom: number;
} {
  let width = 0;
  let top = 0;
  let bottom = 0;
  for (const character of text) {
    const glyph = glyphOf(character);
    width += glyph?.advance ?? UNKNOWN_WIDTH;
    top = Math.max(top, glyph?.top ?? 0);
    bottom = Math.min(bottom, glyph?.bottom ?? 0);
  }
  return { width, top, bottom };
}

/** A character without an outline is left out of the drawing, with room for it. Our choice: half an em. */
export const UNKNOWN_WIDTH = 0.5;
