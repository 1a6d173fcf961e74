import type { StyleText } from "../style.ts";

export const rockQuarters: StyleText = {
  id: "rock-quarters",
  name: "Rock quarters",
  family: "Rock",
  metre: "4/4",
  feel: "straight",
  tempo: "100-160",
  itself:
    "One stroke a beat on the cymbal, the snare on two and four, the kick on one and three with eighths around them.",
  source: "common practice, no source",
  own: `
    hi-hat-closed | x... x... x... x... |
    snare         | .... x... .... x... |
    kick          | x... .... x... .... |`,
  variants: [
    `
    hi-hat-closed | x... x... x... x... |
    snare         | .... x... .... x... |
    kick          | x.x. .... x.x. .... |`,
    `
    bell  | x... x... x... x... |
    snare | .... x... .... x... |
    kick  | x... ..x. x.x. .... |`,
    `
    hi-hat-open | x... x... x... x... |
    snare       | .... x... .... x... |
    kick        | x... ..x. x... ..x. |`,
  ],
};
