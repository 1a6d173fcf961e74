import type { StyleText } from "../style.ts";

export const doubleTimePunk: StyleText = {
  id: "double-time-punk",
  name: "Double-time punk",
  family: "Rock",
  metre: "4/4",
  feel: "straight",
  tempo: "110-150",
  itself:
    "The back-beat twice as often: the snare on every off-beat, the kick on one and three and pushing in between.",
  source: "snare: what most bars of Groove MIDI Dataset d1-s2-32 play; the rest: common practice, no source",
  own: `
    hi-hat-open | x.x. x.x. x.x. x.x. |
    snare       | ..x. ..x. ..x. ..x. |
    kick        | x... .... x... .... |`,
  variants: [
    `
    hi-hat-open | x.x. x.x. x.x. x.x. |
    snare       | ..X. ..X. ..X. ..X. |
    kick        | x... .... x..x .x.. |`,
    `
    hi-hat-closed | x.x. x.x. x.x. x.x. |
    snare         | ..X. ..X. ..X. ..X. |
    kick          | x..x x... x..x x... |`,
  ],
};
