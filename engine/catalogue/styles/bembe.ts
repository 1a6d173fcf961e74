import type { StyleText } from "../style.ts";

export const bembe: StyleText = {
  id: "bembe",
  name: "Bembé",
  family: "Cuba and the Caribbean",
  metre: "12/8",
  feel: "straight",
  tempo: "110-130",
  itself: "The seven-stroke bell over four even beats of the pedal.",
  source:
    "bell and pedal: what most bars of Groove MIDI Dataset d1-s2-112 play; the bell is a rotation of E(7,12), Toussaint, BRIDGES 2005; the rest: common practice, no source",
  own: `
    bell         | x.x .xx .x. x.x |
    hi-hat-pedal | x.. x.. x.. x.. |`,
  variants: [
    `
    bell         | x.x .xx .x. x.x |
    high-tom     | ... .xx ... .xx |
    cross-stick  | ..x ... ..x ... |
    kick         | x.. ... ... ... |
    hi-hat-pedal | x.. x.. x.. x.. |`,
    `
    ride         | x.x .xx .x. x.x |
    snare        | ... x.. ... x.. |
    kick         | x.x ... x.x ... |
    hi-hat-pedal | x.. x.. x.. x.. |`,
  ],
};
