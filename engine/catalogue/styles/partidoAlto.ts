import type { StyleText } from "../style.ts";

export const partidoAlto: StyleText = {
  id: "partido-alto",
  name: "Partido alto",
  metre: "2/4",
  feel: "straight",
  tempo: "90-110",
  itself: "The samba's kick under a broken, two-bar call of the cross-stick that avoids the first beat.",
  source: "common practice, no source",
  own: `
    kick | x..x x..x |`,
  variants: [
    `
    hi-hat-closed | x.x. x.x. | x.x. x.x. |
    cross-stick   | .x.x ..x. | x.x. .x.. |
    kick          | x..x x..x | x..x x..x |`,
    `
    ride        | xxxx xxxx | xxxx xxxx |
    cross-stick | .x.x ..x. | x.x. .x.. |
    kick        | x..x x..x | x..x x..x |`,
  ],
};
