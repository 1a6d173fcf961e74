import type { StyleText } from "../style.ts";

export const rockOffBeat: StyleText = {
  id: "rock-off-beat",
  name: "Rock, kick off the beat",
  family: "Rock",
  metre: "4/4",
  feel: "straight",
  tempo: "80-130",
  itself:
    "After one the kick leaves the beat, in threes of sixteenths, while hi-hat and back-beat stay where they are.",
  source: "common practice, no source",
  own: `
    hi-hat-closed | x.x. x.x. x.x. x.x. |
    snare         | .... x... .... x... |
    kick          | x..x ..x. .... .... |`,
  variants: [
    `
    hi-hat-closed | x.x. x.x. x.x. x.x. |
    snare         | .... x... .... x... |
    kick          | x..x ..x. .... .... |`,
    `
    hi-hat-closed | x.x. x.x. x.x. x.x. |
    snare         | .... x... .... x... |
    kick          | x..x ..x. ...x ..x. |`,
    `
    ride  | x.x. x.x. x.x. x.x. |
    snare | .... x... .g.. x..g |
    kick  | x..x ..x. .... ..x. |`,
  ],
};
