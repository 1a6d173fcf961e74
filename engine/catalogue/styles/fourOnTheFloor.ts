import type { StyleText } from "../style.ts";

export const fourOnTheFloor: StyleText = {
  id: "four-on-the-floor",
  name: "Four on the floor",
  family: "Club and hip-hop",
  metre: "4/4",
  feel: "straight",
  tempo: "118-130",
  itself: "The kick on every beat, the open hi-hat between, and hardly anything else.",
  source: "common practice, no source",
  own: `
    hi-hat-open | ..x. ..x. ..x. ..x. |
    kick        | x... x... x... x... |`,
  variants: [
    `
    hi-hat-open | ..x. ..x. ..x. ..x. |
    snare       | .... x... .... x... |
    kick        | x... x... x... x... |`,
    `
    hi-hat-open | ..x. ..x. ..x. ..x. |
    kick        | x... x... x... x... |`,
  ],
};
