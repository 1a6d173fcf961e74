import type { StyleText } from "../style.ts";

export const swing: StyleText = {
  id: "swing",
  name: "Swing",
  family: "Swing and shuffle",
  metre: "4/4",
  feel: "swung 2 triplets",
  tempo: "100-240",
  itself:
    "The ride’s long, long-short, long, long-short, and the hi-hat pedal on two and four; the snare is free.",
  source:
    "ride and pedal: what most bars of Groove MIDI Dataset d1-s1-76 and d1-s1-77 play; the feathered kick: common practice, no source",
  own: `
    ride         | x.. x.x x.. x.x |
    hi-hat-pedal | ... x.. ... x.. |`,
  variants: [
    `
    ride         | x.. x.x x.. x.x |
    kick         | g.. g.. g.. g.. |
    hi-hat-pedal | ... x.. ... x.. |`,
    `
    ride         | x.. x.x x.. x.x |
    hi-hat-pedal | ... x.. ... x.. |`,
    `
    ride         | x.. x.x x.. x.x |
    snare        | ... ..g ... ..g |
    kick         | g.. g.. g.. g.. |
    hi-hat-pedal | ... x.. ... x.. |`,
  ],
};
