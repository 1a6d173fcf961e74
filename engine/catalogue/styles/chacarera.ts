import type { StyleText } from "../style.ts";

export const chacarera: StyleText = {
  id: "chacarera",
  name: "Chacarera",
  family: "Brazil and Argentina",
  metre: "6/8",
  feel: "straight",
  tempo: "90-120",
  itself: "Cross-stick on the two beats of the bar, and a kick that answers late, on the fifth eighth.",
  source:
    "cross-stick, hi-hat and the last kick: what most bars of Groove MIDI Dataset d1-s2-1 play; the rest: common practice, no source",
  own: `
    hi-hat-closed | xxx xxx |
    cross-stick   | x.. x.. |
    kick          | ... .x. |`,
  variants: [
    `
    hi-hat-closed | xxx xxx |
    cross-stick   | x.. x.. |
    kick          | ..x .x. |`,
    `
    ride        | xxx xxx |
    cross-stick | x.. x.. |
    kick        | ... .x. |`,
  ],
};
