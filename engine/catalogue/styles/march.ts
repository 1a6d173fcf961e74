import type { StyleText } from "../style.ts";

export const march: StyleText = {
  id: "march",
  name: "March",
  family: "March and country",
  metre: "2/4",
  feel: "straight",
  tempo: "100-120",
  itself: "The kick in step on both beats, the snare marking them and filling between in sixteenths.",
  source: "common practice, no source",
  own: `
    snare | x... x... |
    kick  | x... x... |`,
  variants: [
    `
    snare | X.xx Xxxx | Xxx. Xxx. |
    kick  | x... x... | x... x... |`,
    `
    snare | Xxxx X.xx | Xxxx D... |
    kick  | x... x... | x... x... |`,
  ],
};
