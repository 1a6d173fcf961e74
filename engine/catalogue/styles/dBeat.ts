import type { StyleText } from "../style.ts";

export const dBeat: StyleText = {
  id: "d-beat",
  name: "D-beat",
  family: "Rock",
  metre: "4/4",
  feel: "straight",
  tempo: "160-220",
  itself: "A fast back-beat with the kick on one and on the eighths after two and three.",
  source: "common practice, no source",
  own: `
    hi-hat-closed | x.x. x.x. x.x. x.x. |
    snare         | .... x... .... x... |
    kick          | x... ..x. ..x. .... |`,
  variants: [
    `
    hi-hat-closed | x.x. x.x. x.x. x.x. |
    snare         | .... x... .... x... |
    kick          | x... ..x. ..x. .... |`,
    `
    ride  | x.x. x.x. x.x. x.x. |
    snare | .... x... .... x... |
    kick  | x... ..x. ..x. ..x. |`,
  ],
};
