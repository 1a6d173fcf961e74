import type { StyleText } from "../style.ts";

export const shuffle: StyleText = {
  id: "shuffle",
  name: "Shuffle",
  metre: "4/4",
  feel: "swung 2 triplets",
  tempo: "90-140",
  itself: "The long and the short of every beat on the cymbal, and a snare that holds two and four.",
  source:
    "snare and hi-hat pedal: what most bars of Groove MIDI Dataset d1-s1-51 play; the rest: common practice, no source",
  variants: [
    `
    ride         | x.x x.x x.x x.x |
    snare        | ... X.. ... X.. |
    kick         | x.. ... x.. ... |
    hi-hat-pedal | ... x.. ... x.. |`,
    `
    hi-hat-closed | x.x x.x x.x x.x |
    snare         | ... X.. ... X.. |
    kick          | x.. ... x.x ... |`,
    `
    hi-hat-closed | x.x x.x x.x x.x |
    snare         | ... X.. ... X.. |
    kick          | x.. x.. x.. x.. |`,
  ],
};
