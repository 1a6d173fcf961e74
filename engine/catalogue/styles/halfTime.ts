import type { StyleText } from "../style.ts";

export const halfTime: StyleText = {
  id: "half-time",
  name: "Half-time",
  family: "Rock",
  metre: "4/4",
  feel: "straight",
  tempo: "120-160",
  itself: "One back-beat a bar, on three, under eighths that keep the full tempo.",
  source:
    "kick on one and snare on three: what most bars of Groove MIDI Dataset d1-s1-202 play; the rest: common practice, no source",
  own: `
    hi-hat-closed | x.x. x.x. x.x. x.x. |
    snare         | .... .... x... .... |
    kick          | x... .... .... .... |`,
  variants: [
    `
    hi-hat-closed | x.x. x.x. x.x. x.x. |
    snare         | .... .... X... .... |
    kick          | x... ..x. .... ..x. |`,
    `
    hi-hat-closed | x.x. x.x. x.x. x.x. |
    snare         | .... .... X... .... |
    kick          | x..x .... .... x... |`,
    `
    ride  | x.x. x.x. x.x. x.x. |
    snare | .... .... X... .... |
    kick  | x... .... ..x. .... |`,
  ],
};
