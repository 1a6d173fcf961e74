import type { StyleText } from "../style.ts";

export const swingInFive: StyleText = {
  id: "swing-in-five",
  name: "Swing in five",
  family: "Odd metres",
  metre: "5/4",
  feel: "swung 2 triplets",
  tempo: "120-180",
  itself: "Five beats swung on the ride, grouped as three and two.",
  source: "common practice, no source; books differ on the pedal",
  own: `
    ride | x.. x.x x.. x.. x.x |`,
  variants: [
    `
    ride         | x.. x.x x.. x.. x.x |
    kick         | x.. ... ... x.. ... |
    hi-hat-pedal | ... x.. ... ... x.. |`,
    `
    ride         | x.. x.x x.. x.. x.x |
    snare        | ... ... ..g ... ..g |
    hi-hat-pedal | ... x.. ... x.. ... |`,
  ],
};
