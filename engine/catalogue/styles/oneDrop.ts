import type { StyleText } from "../style.ts";

export const oneDrop: StyleText = {
  id: "one-drop",
  name: "One drop",
  family: "Jamaica",
  metre: "4/4",
  feel: "straight",
  tempo: "65-90",
  itself: "Nothing on one: kick and cross-stick fall together on two and four, the hi-hat between the beats.",
  source: "Groove MIDI Dataset d1-s1-184; tempos: common practice, no source",
  own: `
    hi-hat-closed | ..x. ..x. ..x. ..x. |
    cross-stick   | .... x... .... x... |
    kick          | .... x... .... x... |`,
  variants: [
    `
    hi-hat-closed | ..x. ..x. ..x. ..x. |
    cross-stick   | .... x... .... x... |
    kick          | .... x... .... x... |`,
    `
    hi-hat-closed | x.x. x.x. x.x. x.x. |
    cross-stick   | .... x... .... x... |
    kick          | .... x... .... x... |`,
    `
    hi-hat-closed | ..xx ..x. ..xx ..x. |
    snare         | .... x... .... x... |
    kick          | .... x... .... x... |`,
  ],
};
