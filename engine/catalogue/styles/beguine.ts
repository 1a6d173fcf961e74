import type { StyleText } from "../style.ts";

export const beguine: StyleText = {
  id: "beguine",
  name: "Beguine",
  family: "Cuba and the Caribbean",
  metre: "4/4",
  feel: "straight",
  tempo: "100-130",
  itself: "Even eighths, and a stick that plays one and its off-beat, then leaves out two.",
  source: "common practice, no source; books differ on the stick",
  own: `
    hi-hat-closed | x.x. x.x. x.x. x.x. |
    kick          | x... .... .... .... |`,
  variants: [
    `
    hi-hat-closed | x.x. x.x. x.x. x.x. |
    cross-stick   | x.x. ..x. x... x... |
    kick          | x... .... x... .... |`,
    `
    ride        | x.x. x.x. x.x. x.x. |
    cross-stick | x.x. ..x. x... x... |
    kick        | x... .... x... x... |`,
  ],
};
