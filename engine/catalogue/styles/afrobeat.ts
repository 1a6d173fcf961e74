import type { StyleText } from "../style.ts";

export const afrobeat: StyleText = {
  id: "afrobeat",
  name: "Afrobeat",
  family: "Soul and funk",
  metre: "4/4",
  feel: "straight",
  tempo: "95-125",
  itself:
    "The kick on one, three and four, the hi-hat leaving out every fourth sixteenth, the cross-stick talking off the beat.",
  source:
    "what most bars of Groove MIDI Dataset d1-s3-11 play: kick, and cross-stick on the off-beats of two and four; the rest: common practice, no source",
  own: `
    cross-stick | .... ..x. .... ..x. |
    kick        | x... .... x... x... |`,
  variants: [
    `
    hi-hat-closed | xxx. xxx. xxx. xxx. |
    cross-stick   | .... ..xx .... ..xx |
    kick          | x... .... x... x... |`,
    `
    hi-hat-closed | xxx. xxx. xxx. xxx. |
    cross-stick   | ..xx ..x. .... ..xx |
    kick          | x..x x... x... x... |`,
  ],
};
