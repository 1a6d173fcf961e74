import type { StyleText } from "../style.ts";

export const maracatu: StyleText = {
  id: "maracatu",
  name: "Maracatu",
  family: "Brazil and Argentina",
  metre: "4/4",
  feel: "straight",
  tempo: "80-110",
  itself:
    "The pedal off the beat, a stroke on the off-beat of two, and the snare a sixteenth after three and after four.",
  source:
    "pedal, snare and the stick before: what most bars of Groove MIDI Dataset d5-s1-6 play; the rest: common practice, no source",
  own: `
    snare        | .... ..x. .x.. .x.. |
    hi-hat-pedal | ..x. ..x. ..x. ..x. |`,
  variants: [
    `
    cross-stick  | x... x.x. .... .... |
    snare        | .... .... .X.. .X.. |
    kick         | x... .... x... .... |
    hi-hat-pedal | ..x. ..x. ..x. ..x. |`,
    `
    snare        | Xggg XgXg gXgg gXgg |
    kick         | x... .... x... .... |
    hi-hat-pedal | ..x. ..x. ..x. ..x. |`,
  ],
};
