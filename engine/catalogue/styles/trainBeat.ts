import type { StyleText } from "../style.ts";

export const trainBeat: StyleText = {
  id: "train-beat",
  name: "Train beat",
  family: "March and country",
  metre: "4/4",
  feel: "straight",
  tempo: "90-130",
  itself:
    "Sixteenths on the snare with the accent on every off-beat, like wheels on rails, the kick beneath.",
  source:
    "kick and accents: what most bars of Groove MIDI Dataset d1-s2-10 play; the rest: common practice, no source",
  own: `
    snare | ggxg ggxg ggxg ggxg |
    kick  | x... .... x... .... |`,
  variants: [
    `
    snare        | ggXg ggXg ggXg ggXg |
    kick         | x... x... x... x... |
    hi-hat-pedal | ..x. ..x. ..x. ..x. |`,
    `
    snare        | ggXg ggXg ggXg ggXg |
    kick         | x... .... x... .... |
    hi-hat-pedal | .... x... .... x... |`,
  ],
};
