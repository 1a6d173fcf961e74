import type { StyleText } from "../style.ts";

export const bluesShuffle: StyleText = {
  id: "blues-shuffle",
  name: "Blues shuffle",
  family: "Swing and shuffle",
  metre: "4/4",
  feel: "swung 2 triplets",
  tempo: "90-130",
  itself:
    "Both hands shuffle: the snare plays the long and the short with the cymbal, soft but for two and four.",
  source: "common practice, no source",
  own: `
    hi-hat-closed | x.x x.x x.x x.x |
    snare         | g.g X.g g.g X.g |
    kick          | x.. ... x.. ... |`,
  variants: [
    `
    hi-hat-closed | x.x x.x x.x x.x |
    snare         | g.g X.g g.g X.g |
    kick          | x.. x.. x.. x.. |`,
    `
    ride         | x.x x.x x.x x.x |
    snare        | g.g X.g g.g X.g |
    kick         | x.. ... x.. ... |
    hi-hat-pedal | ... x.. ... x.. |`,
  ],
};
