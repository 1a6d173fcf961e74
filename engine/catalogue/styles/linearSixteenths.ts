import type { StyleText } from "../style.ts";

export const linearSixteenths: StyleText = {
  id: "linear-sixteenths",
  name: "Linear sixteenths",
  family: "Soul and funk",
  metre: "4/4",
  feel: "straight",
  tempo: "80-110",
  itself: "One stroke at a time: kick, snare and hi-hat share out the sixteenths and never fall together.",
  source: "common practice, no source",
  own: `
    snare | .... x... .... x... |
    kick  | x... .... ..x. .... |`,
  variants: [
    `
    hi-hat-closed | .xx. .x.x .x.x .xx. |
    snare         | .... X... g... X... |
    kick          | x..x ..x. ..x. ...x |`,
    `
    hi-hat-closed | .x.x .xx. x..x .xx. |
    snare         | ..g. X... .g.. X..g |
    kick          | x... ...x ..x. .... |`,
  ],
};
