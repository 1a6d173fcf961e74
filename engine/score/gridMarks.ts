/** The marks of the grid text, which {@link parseGrid} reads and {@link printGrid} writes. */
import type { Dynamic, Ornament } from "./groove.ts";

interface Stroke {
  readonly dynamic: Dynamic;
  readonly ornament?: Ornament;
}

export const STROKES: Readonly<Record<string, Stroke>> = {
  x: { dynamic: "plain" },
  X: { dynamic: "accent" },
  g: { dynamic: "ghost" },
  f: { dynamic: "plain", ornament: "flam" },
  F: { dynamic: "accent", ornament: "flam" },
  h: { dynamic: "ghost", ornament: "flam" },
  d: { dynamic: "plain", ornament: "drag" },
  D: { dynamic: "accent", ornament: "drag" },
  e: { dynamic: "ghost", ornament: "drag" },
};

export const SILENCE = ".";

/** More than anyone writes: the triplets of sixty-fourths in 4/4 are 96. Our choice, so that a slip asks for no huge grid. */
export const MOST_MARKS_IN_A_BAR = 192;
