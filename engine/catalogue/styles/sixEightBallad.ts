import type { StyleText } from "../style.ts";

export const sixEightBallad: StyleText = {
  id: "six-eight-ballad",
  name: "Six-eight ballad",
  family: "Swing and shuffle",
  metre: "6/8",
  feel: "straight",
  tempo: "50-75",
  itself:
    "Six eighths on the cymbal, the snare on the fourth, and a kick that comes back on the sixth to lead into one.",
  source: "common practice, no source",
  own: `
    hi-hat-closed | xxx xxx |
    snare         | ... x.. |
    kick          | x.. ..x |`,
  variants: [
    `
    hi-hat-closed | xxx xxx |
    snare         | ... X.. |
    kick          | x.. .xx |`,
    `
    ride        | xxx xxx |
    cross-stick | ... x.. |
    kick        | x.x ..x |`,
  ],
};
