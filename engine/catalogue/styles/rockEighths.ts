import type { StyleText } from "../style.ts";

export const rockEighths: StyleText = {
  id: "rock-eighths",
  name: "Rock eighths",
  family: "Rock",
  metre: "4/4",
  feel: "straight",
  tempo: "80-140",
  itself:
    "Even eighths on the hi-hat, the snare on two and four, the kick on one and three and the eighth after.",
  source:
    "kick and snare of the first: what most bars of Groove MIDI Dataset d1-s3-14 play; hi-hat and the others: common practice, no source",
  isEveryday: true,
  own: `
    hi-hat-closed | x.x. x.x. x.x. x.x. |
    snare         | .... x... .... x... |
    kick          | x... .... x... .... |`,
  variants: [
    `
    hi-hat-closed | x.x. x.x. x.x. x.x. |
    snare         | .... x... .... x... |
    kick          | x... .... x.x. .... |`,
    `
    hi-hat-closed | x.x. x.x. x.x. x.x. |
    snare         | .... x... .... x... |
    kick          | x... .... x... .... |`,
    `
    hi-hat-closed | x.x. x.x. x.x. x.x. |
    snare         | .... x... .... x... |
    kick          | x... ..x. x... .... |`,
    `
    ride         | x.x. x.x. x.x. x.x. |
    snare        | .... x... .... x... |
    kick         | x... .... x.x. .... |
    hi-hat-pedal | .... x... .... x... |`,
  ],
};
