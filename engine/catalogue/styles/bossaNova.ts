import type { StyleText } from "../style.ts";

export const bossaNova: StyleText = {
  id: "bossa-nova",
  name: "Bossa nova",
  family: "Brazil and Argentina",
  metre: "4/4",
  feel: "straight",
  tempo: "110-150",
  itself:
    "A cross-stick figure of five strokes over two bars, even eighths, and the kick on one, two-and, three, four-and.",
  source:
    "cross-stick: Toussaint, BRIDGES 2005, E(5,16) from its third onset; pedal: Groove MIDI Dataset d5-s1-1; kick and hi-hat: common practice, no source",
  own: `
    hi-hat-closed | xx xx xx xx | xx xx xx xx |
    cross-stick   | x. .x .. x. | .. x. .x .. |
    kick          | x. .x x. .x | x. .x x. .x |`,
  variants: [
    `
    hi-hat-closed | xx xx xx xx | xx xx xx xx |
    cross-stick   | x. .x .. x. | .. x. .x .. |
    kick          | x. .x x. .x | x. .x x. .x |
    hi-hat-pedal  | .. x. .. x. | .. x. .. x. |`,
    `
    ride          | xx xx xx xx | xx xx xx xx |
    cross-stick   | .. x. .x .. | x. .x .. x. |
    kick          | x. .x x. .x | x. .x x. .x |
    hi-hat-pedal  | .. x. .. x. | .. x. .. x. |`,
  ],
};
