import type { StyleText } from "../style.ts";

export const polka: StyleText = {
  id: "polka",
  name: "Polka",
  family: "March and country",
  metre: "2/4",
  feel: "straight",
  tempo: "110-130",
  itself: "Kick on the beat, snare off it, and again.",
  source: "common practice, no source",
  own: `
    snare | ..x. ..x. |
    kick  | x... x... |`,
  variants: [
    `
    hi-hat-closed | x.x. x.x. |
    snare         | ..x. ..x. |
    kick          | x... x... |`,
    `
    hi-hat-closed | x.x. x.x. |
    snare         | ..x. ..xx |
    kick          | x... x... |`,
  ],
};
