import type { StyleText } from "../style.ts";

export const halfTimeShuffle: StyleText = {
  id: "half-time-shuffle",
  name: "Half-time shuffle",
  family: "Swing and shuffle",
  metre: "4/4",
  feel: "swung 2 triplets",
  tempo: "80-105",
  itself:
    "Ghost notes on the middle triplets under the long and short of the hi-hat, and the back-beat on three alone.",
  source: "common practice, no source",
  own: `
    hi-hat-closed | x.x x.x x.x x.x |
    snare         | .g. .g. xg. .g. |`,
  variants: [
    `
    hi-hat-closed | x.x x.x x.x x.x |
    snare         | .g. .g. Xg. .g. |
    kick          | x.. ..x ... ... |`,
    `
    hi-hat-closed | x.x x.x x.x x.x |
    snare         | .g. .g. Xg. .g. |
    kick          | x.x ... ..x ..x |`,
    `
    ride  | x.x x.x x.x x.x |
    snare | .g. .g. Xg. .g. |
    kick  | x.. ... ..x ... |`,
  ],
};
