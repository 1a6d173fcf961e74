import type { StyleText } from "../style.ts";

export const shuffle: StyleText = {
  id: "shuffle",
  name: "Shuffle",
  family: "Swing and shuffle",
  metre: "4/4",
  feel: "swung 2 triplets",
  tempo: "90-140",
  itself: "The long and the short of every beat on the cymbal, and a snare that holds two and four.",
  source:
    "snare, hi-hat pedal and the ride of the second: what most bars of Groove MIDI Dataset d1-s1-51 play; the rest: common practice, no source",
  own: `
    ride  | x.. x.x x.. x.x |
    snare | ... x.. ... x.. |
    kick  | x.. ... x.. ... |`,
  variants: [
    `
    ride         | x.x x.x x.x x.x |
    snare        | ... X.. ... X.. |
    kick         | x.. ... x.. ... |
    hi-hat-pedal | ... x.. ... x.. |`,
    `
    ride         | x.. x.x x.. x.x |
    snare        | ... X.. ... X.. |
    kick         | x.. ... x.. ... |
    hi-hat-pedal | ... x.. ... x.. |`,
    `
    hi-hat-closed | x.x x.x x.x x.x |
    snare         | ... X.. ... X.. |
    kick          | x.. ... x.x ... |`,
  ],
};
