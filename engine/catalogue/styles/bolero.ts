import type { StyleText } from "../style.ts";

export const bolero: StyleText = {
  id: "bolero",
  name: "Bolero",
  family: "Cuba and the Caribbean",
  metre: "4/4",
  feel: "straight",
  tempo: "70-100",
  itself: "The cross-stick on two, the high tom on four and its off-beat, quiet eighths above.",
  source: "common practice, no source",
  own: `
    hi-hat-closed | x.x. x.x. x.x. x.x. |
    high-tom      | .... .... .... x.x. |
    cross-stick   | .... x... .... .... |`,
  variants: [
    `
    hi-hat-closed | x.x. x.x. x.x. x.x. |
    high-tom      | .... .... .... x.x. |
    cross-stick   | .... x... .... .... |
    kick          | x... .... x... .... |`,
    `
    hi-hat-closed | x.x. x.x. x.x. x.x. |
    high-tom      | .... .... .... x.x. |
    cross-stick   | .... x... .... .... |
    kick          | x... ..x. x... .... |`,
  ],
};
