import type { StyleText } from "../style.ts";

export const twoBeat: StyleText = {
  id: "two-beat",
  name: "Two-beat country",
  family: "March and country",
  metre: "4/4",
  feel: "straight",
  tempo: "90-130",
  itself: "Kick on one and three, cross-stick on two and four, and little else.",
  source: "common practice, no source",
  own: `
    cross-stick | .... x... .... x... |
    kick        | x... .... x... .... |`,
  variants: [
    `
    hi-hat-closed | x... x... x... x... |
    cross-stick   | .... x... .... x... |
    kick          | x... .... x... .... |`,
    `
    ride         | x... x... x... x... |
    cross-stick  | .... x... .... x... |
    kick         | x... .... x... .... |
    hi-hat-pedal | .... x... .... x... |`,
  ],
};
