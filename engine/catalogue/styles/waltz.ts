import type { StyleText } from "../style.ts";

export const waltz: StyleText = {
  id: "waltz",
  name: "Waltz",
  family: "March and country",
  metre: "3/4",
  feel: "straight",
  tempo: "90-180",
  itself: "The kick on one, the snare or the cross-stick answering on two and three.",
  source: "common practice, no source",
  own: `
    snare | .... x... x... |
    kick  | x... .... .... |`,
  variants: [
    `
    hi-hat-closed | x... x... x... |
    snare         | .... x... x... |
    kick          | x... .... .... |`,
    `
    ride        | x... x... x... |
    cross-stick | .... x... x... |
    kick        | x... .... .... |`,
    `
    hi-hat-closed | x.x. x.x. x.x. |
    snare         | .... x... x... |
    kick          | x... .... .... |`,
  ],
};
