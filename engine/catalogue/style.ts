/**
 * A named style of the studio's stock: what makes it itself, its written variants, and where they come from.
 */
import { type Groove, parseGrid } from "../score/index.ts";
import type { Family } from "./family.ts";

export interface Style {
  readonly id: string;
  readonly name: string;
  readonly family: Family;
  /** The strokes that make the style itself, in one sentence. */
  readonly itself: string;
  /** A published source, or "common practice, no source". */
  readonly source: string;
  /** Whether most players play it most days (common practice, no source): then it is what is heard more often than another. */
  readonly isEveryday: boolean;
  /**
   * The strokes that make the style itself, as a groove with the style's own id: whoever leaves one out plays
   * something else; whatever a variant adds is free. A stroke that keeps time may be on any hi-hat, ride or bell, a
   * back-beat on the snare or as a cross-stick, and a figure of two bars may begin at its other bar.
   */
  readonly own: Groove;
  /** At least one; the first is the plainest. Ids are the style's id, then `-2`, `-3`. */
  readonly variants: readonly Groove[];
}

/** What a style's file holds; the grids leave out what all variants share. */
export interface StyleText {
  readonly id: string;
  readonly name: string;
  readonly family: Family;
  readonly metre: string;
  readonly feel: string;
  readonly tempo: string;
  readonly itself: string;
  readonly source: string;
  readonly isEveryday?: true;
  /** The grid of {@link Style.own}, the voice lines only: one bar, or the two of the style's figure. */
  readonly own: string;
  /** One grid each: the voice lines only. */
  readonly variants: readonly string[];
}

/**
 * Reads a style.
 *
 * @throws GridError when a grid is wrong; the line counts from the style's own heading.
 */
export function readStyle(text: StyleText): Style {
  const grooveOf = (id: string, grid: string): Groove =>
    parseGrid(
      [
        `groove: ${id}`,
        `name: ${text.name}`,
        `metre: ${text.metre}`,
        `feel: ${text.feel}`,
        `tempo: ${text.tempo}`,
        grid,
      ].join("\n"),
    );
  return {
    id: text.id,
    name: text.name,
    family: text.family,
    itself: text.itself,
    source: text.source,
    isEveryday: text.isEveryday ?? false,
    own: grooveOf(text.id, text.own),
    variants: text.variants.map((grid, index) =>
      grooveOf(index === 0 ? text.id : `${text.id}-${index + 1}`, grid),
    ),
  };
}
