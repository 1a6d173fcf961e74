import type { StyleText } from "../style.ts";

export const jazzWaltz: StyleText = {
  id: "jazz-waltz",
  name: "Swing in three",
  family: "Swing and shuffle",
  metre: "3/4",
  feel: "swung 2 triplets",
  tempo: "100-200",
  itself: "Three beats swung on the ride, the hi-hat pedal on two.",
  source:
    "ride and pedal: what most bars of Groove MIDI Dataset d1-s2-4 play; the kick: common practice, no source",
  own: `
    ride         | x.. x.x x.. |
    hi-hat-pedal | ... x.. ... |`,
  variants: [
    `
    ride         | x.. x.x x.. |
    kick         | x.. ... ... |
    hi-hat-pedal | ... x.. ... |`,
    `
    ride         | x.. x.x x.. |
    kick         | x.. ... ... |
    hi-hat-pedal | ... x.. x.. |`,
    `
    ride         | x.. x.x x.. |
    snare        | ... ..g ..g |
    kick         | x.. ... ... |
    hi-hat-pedal | ... x.. ... |`,
  ],
};
