/** Shapes as they are drawn: outlines and lines, with the room they take. Lengths in tenths of a staff space, y down. */
import { glyphOf, type Step, UNKNOWN_WIDTH } from "./glyphs.ts";

/**
 * What a shape is for: `ink` is music, `line` the staff and bar lines, `mark` what differs from what is written.
 * The page gives each its colour.
 */
export type Tone = "ink" | "line" | "mark";

/** One outline to fill, or a line to stroke when it has a width. */
export interface Shape {
  readonly tone: Tone;
  readonly steps: readonly Step[];
  readonly strokeWidth?: number;
  /** Lengths of dash and gap. */
  readonly dash?: readonly [number, number];
}

/** A box, y down. */
export interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** Collects shapes. */
export class Drawing {
  readonly shapes: Shape[] = [];

  fill(steps: readonly Step[], tone: Tone = "ink"): void {
    this.shapes.push({ tone, steps });
  }

  stroke(
    steps: readonly Step[],
    strokeWidth: number,
    tone: Tone = "ink",
    dash?: readonly [number, number],
  ): void {
    this.shapes.push({ tone, steps, strokeWidth, ...(dash ? { dash } : {}) });
  }

  line(x1: number, y1: number, x2: number, y2: number, width: number, tone: Tone = "ink"): void {
    this.stroke(
      [
        { op: "M", at: [x1, y1] },
        { op: "L", at: [x2, y2] },
      ],
      width,
      tone,
    );
  }

  rectangle(left: number, top: number, width: number, height: number, tone: Tone = "ink"): void {
    this.fill(rectangle(left, top, width, height), tone);
  }

  /** Letters and music signs in a row from `x`, standing on `y`; `size` is the em. Returns the x where they end. */
  letter(text: string, x: number, y: number, size: number, tone: Tone = "ink"): number {
    let at = x;
    for (const character of text) {
      const glyph = glyphOf(character);
      if (glyph && glyph.outline.length > 0) this.fill(placed(glyph.outline, at, y, size), tone);
      at += (glyph?.advance ?? UNKNOWN_WIDTH) * size;
    }
    return at;
  }
}

export function rectangle(left: number, top: number, width: number, height: number): readonly Step[] {
  const [right, bottom] = [left + width, top + height];
  return [
    { op: "M", at: [left, top] },
    { op: "L", at: [right, top] },
    { op: "L", at: [right, bottom] },
    { op: "L", at: [left, bottom] },
    { op: "Z", at: [] },
  ];
}

/** A circle, as four curves (the usual cubic approximation, off by less than 0.03 % of the radius). */
export function circle(x: number, y: number, radius: number): readonly Step[] {
  const k = 0.5523 * radius;
  return [
    { op: "M", at: [x + radius, y] },
    { op: "C", at: [x + radius, y + k, x + k, y + radius, x, y + radius] },
    { op: "C", at: [x - k, y + radius, x - radius, y + k, x - radius, y] },
    { op: "C", at: [x - radius, y - k, x - k, y - radius, x, y - radius] },
    { op: "C", at: [x + k, y - radius, x + radius, y - k, x + radius, y] },
    { op: "Z", at: [] },
  ];
}

/** An outline of unit em, y up, at a place of the drawing. */
function placed(outline: readonly Step[], x: number, y: number, size: number): readonly Step[] {
  return outline.map(({ op, at }) => ({
    op,
    at: at.map((value, index) => (index % 2 === 0 ? x + value * size : y - value * size)),
  }));
}

/** The room that shapes take, strokes with half their width; control points count, so it is never too small. */
export function boxOf(shapes: readonly Shape[]): Box {
  const box = { left: Infinity, top: Infinity, right: -Infinity, bottom: -Infinity };
  for (const { steps, strokeWidth = 0 } of shapes) {
    for (const { at } of steps) {
      for (let index = 0; index + 1 < at.length; index += 2) {
        const [x = 0, y = 0] = [at[index], at[index + 1]];
        box.left = Math.min(box.left, x - strokeWidth / 2);
        box.right = Math.max(box.right, x + strokeWidth / 2);
        box.top = Math.min(box.top, y - strokeWidth / 2);
        box.bottom = Math.max(box.bottom, y + strokeWidth / 2);
      }
    }
  }
  return box.left === Infinity ? { left: 0, top: 0, right: 0, bottom: 0 } : box;
}

/** Shapes of one tone and one kind of line, as one path of SVG. */
export interface Path {
  readonly tone: Tone;
  readonly d: string;
  readonly strokeWidth?: number;
  readonly dash?: string;
}

/**
 * Shapes as few paths, moved down by `dy` and then scaled. Fills of one tone are one path: glyphs wind alike, so where they touch
 * nothing is cut out; rectangles wind as glyphs do.
 */
export function pathsOf(shapes: readonly Shape[], scale: number, dy: number): readonly Path[] {
  const found = new Map<string, Path & { d: string }>();
  for (const { tone, steps, strokeWidth, dash } of shapes) {
    const key = `${tone} ${strokeWidth ?? "fill"} ${dash?.join(" ") ?? ""}`;
    let path = found.get(key);
    if (!path) {
      path = {
        tone,
        d: "",
        ...(strokeWidth === undefined ? {} : { strokeWidth: rounded(strokeWidth * scale) }),
        ...(dash ? { dash: dash.map((length) => rounded(length * scale)).join(" ") } : {}),
      };
      found.set(key, path);
    }
    for (const { op, at } of steps) {
      path.d += op + at.map((v, index) => rounded((index % 2 === 0 ? v : v + dy) * scale)).join(" ");
    }
  }
  return [...found.values()];
}

function rounded(value: number): number {
  return Math.round(value * 100) / 100;
}
