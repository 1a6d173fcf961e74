import type { StyleText } from "../style.ts";

export const blastBeat: StyleText = {
  id: "blast-beat",
  name: "Blast beat",
  family: "Rock",
  metre: "4/4",
  feel: "straight",
  tempo: "180-260",
  itself: "Kick and cymbal together on every eighth, the snare on every sixteenth between.",
  source: "common practice, no source",
  own: `
    ride  | x... x... x... x... |
    snare | .x.x .x.x .x.x .x.x |
    kick  | x.x. x.x. x.x. x.x. |`,
  variants: [
    `
    ride  | x.x. x.x. x.x. x.x. |
    snare | .x.x .x.x .x.x .x.x |
    kick  | x.x. x.x. x.x. x.x. |`,
    `
    hi-hat-closed | x... x... x... x... |
    snare         | .x.x .x.x .x.x .x.x |
    kick          | x.x. x.x. x.x. x.x. |`,
  ],
};
