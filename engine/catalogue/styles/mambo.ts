import type { StyleText } from "../style.ts";

export const mambo: StyleText = {
  id: "mambo",
  name: "Mambo with cáscara",
  family: "Cuba and the Caribbean",
  metre: "4/4",
  feel: "straight",
  tempo: "160-220",
  itself: "The son clave in one hand, the cáscara in the other, and a kick that never falls on one.",
  source: "clave: Toussaint, BRIDGES 2002, son 3-2; the rest: common practice, no source",
  own: `
    cross-stick | x..x ..x. | ..x. x... |
    kick        | ...x ..x. | ...x ..x. |`,
  variants: [
    `
    hi-hat-closed | x.xx .xx. | x.x. xx.x |
    cross-stick   | x..x ..x. | ..x. x... |
    kick          | ...x ..x. | ...x ..x. |`,
    `
    ride         | x.xx .xx. | x.x. xx.x |
    cross-stick  | x..x ..x. | ..x. x... |
    kick         | ...x ..x. | ...x ..x. |
    hi-hat-pedal | x... x... | x... x... |`,
  ],
};
