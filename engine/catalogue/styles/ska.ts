import type { StyleText } from "../style.ts";

export const ska: StyleText = {
  id: "ska",
  name: "Ska",
  family: "Jamaica",
  metre: "4/4",
  feel: "straight",
  tempo: "110-160",
  itself: "The hi-hat alone between the beats, the snare on two and four.",
  source: "common practice, no source",
  own: `
    hi-hat-closed | ..x. ..x. ..x. ..x. |
    snare         | .... x... .... x... |`,
  variants: [
    `
    hi-hat-closed | ..x. ..x. ..x. ..x. |
    snare         | .... x... .... x... |
    kick          | x... .... x... .... |`,
    `
    hi-hat-closed | ..x. ..x. ..x. ..x. |
    snare         | .... x... .... x.x. |
    kick          | x... .... x.x. .... |`,
  ],
};
