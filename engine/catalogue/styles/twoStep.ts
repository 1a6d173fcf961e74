import type { StyleText } from "../style.ts";

export const twoStep: StyleText = {
  id: "two-step",
  name: "Drum-and-bass two-step",
  family: "Club and hip-hop",
  metre: "4/4",
  feel: "straight",
  tempo: "160-180",
  itself: "A fast back-beat whose second kick waits for the eighth after three, the cymbal skipping between.",
  source: "common practice, no source",
  own: `
    hi-hat-closed | x.x. x.x. x.x. x.x. |
    snare         | .... x... .... x... |
    kick          | x... .... ..x. .... |`,
  variants: [
    `
    hi-hat-closed | x.x. x.xx x.x. x.xx |
    snare         | .... x... .... x... |
    kick          | x... .... ..x. .... |`,
    `
    ride  | x.xx x.x. x.xx x.x. |
    snare | .... x... .... x... |
    kick  | x... .... ..x. .... |`,
  ],
};
