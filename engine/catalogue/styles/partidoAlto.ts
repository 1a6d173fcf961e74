import type { StyleText } from "../style.ts";

export const partidoAlto: StyleText = {
  id: "partido-alto",
  name: "Partido alto",
  family: "Brazil and Argentina",
  metre: "2/4",
  feel: "straight",
  tempo: "90-110",
  itself: "The samba’s kick under a broken, two-bar call of the cross-stick that avoids the first beat.",
  source: "common practice, no source; books differ on the call",
  own: `
    kick | x..x x..x |`,
  variants: [
    `
    hi-hat-closed | x.x. x.x. | x.x. x.x. |
    cross-stick   | .x.x ..x. | x.x. .x.. |
    kick          | x..x x..x | x..x x..x |`,
    `
    ride         | x.x. x.x. | x.x. x.x. |
    snare        | .x.x ..x. | x.x. .x.. |
    kick         | x..x x..x | x..x x..x |
    hi-hat-pedal | ..x. ..x. | ..x. ..x. |`,
  ],
};
