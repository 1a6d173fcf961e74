import type { StyleText } from "../style.ts";

export const fourOnTheSnare: StyleText = {
  id: "four-on-the-snare",
  name: "Four on the snare",
  family: "Soul and funk",
  metre: "4/4",
  feel: "straight",
  tempo: "110-150",
  itself: "The snare on all four beats under even eighths, the kick moving around it.",
  source: "snare: Groove MIDI Dataset d7-s2-54; kick and hi-hat: common practice, no source",
  own: `
    hi-hat-closed | x.x. x.x. x.x. x.x. |
    snare         | x... x... x... x... |`,
  variants: [
    `
    hi-hat-closed | x.x. x.x. x.x. x.x. |
    snare         | X... X... X... X... |
    kick          | x... ..x. x... ..x. |`,
    `
    ride  | x.x. x.x. x.x. x.x. |
    snare | X... X... X... X... |
    kick  | x... ..x. x.x. .... |`,
  ],
};
