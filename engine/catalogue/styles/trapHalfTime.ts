import type { StyleText } from "../style.ts";

export const trapHalfTime: StyleText = {
  id: "trap-half-time",
  name: "Trap half-time",
  family: "Club and hip-hop",
  metre: "4/4",
  feel: "straight",
  tempo: "130-160",
  itself: "One back-beat a bar, on three, under eighths on the hi-hat broken by short rolls.",
  source: "common practice, no source",
  own: `
    hi-hat-closed | x.x. x.x. x.x. x.x. |
    snare         | .... .... x... .... |`,
  variants: [
    `
    hi-hat-closed | x... x... x.x. x... x... x... xxxx x... |
    snare         | .... .... X... .... |
    kick          | x... ...x ..x. .... |`,
    `
    hi-hat-closed | x..x.. x..x.. x..xxx x..xxx |
    snare         | .... .... X... .... |
    kick          | x..x .... ..x. ..x. |`,
  ],
};
