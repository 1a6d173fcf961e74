/**
 * A named style of the studio's stock: what makes it itself, its written variants, and where they come from.
 */
import { type Groove, parseGrid } from "../score/index.ts";

export interface Style {
  readonly id: string;
  readonly name: string;
  /** The strokes that make the style itself, in one sentence. */
  readonly itself: string;
  /** A published source, or "common practice, no source". */
  readonly source: string;
  /** At least one; the first is the plainest. Ids are the style's id, then `-2`, `-3`. */
  readonly variants: readonly Groove[];
}

/** What a style's file holds; the grids leave out what all variants share. */
export interface StyleText {
  readonly id: string;
  readonly name: string;
  readonly metre: string;
  readonly feel: string;
  readonly tempo: string;
  readonly itself: string;
  readonly source: string;
  /** One grid each: the voice lines only. */
  readonly variants: readonly string[];
}

/**
 * Reads a style.
 *
 * @throws GridError when a grid is wrong; the line counts from the style's own heading.
 */
export function readStyle(text: StyleText): Style {
  const variants = text.variants.map((grid, index) =>
    parseGrid(
      [
        `groove: ${text.id}${index === 0 ? "" : `-${index + 1}`}`,
        `name: ${text.name}`,
        `metre: ${text.metre}`,
        `feel: ${text.feel}`,
        `tempo: ${text.tempo}`,
        grid,
      ].join("\n"),
    ),
  );
  return { id: text.id, name: text.name, itself: text.itself, source: text.source, variants };
}
