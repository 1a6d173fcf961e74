import type { StyleText } from "../style.ts";

export const chaCha: StyleText = {
  id: "cha-cha",
  name: "Cha-cha",
  family: "Cuba and the Caribbean",
  metre: "4/4",
  feel: "straight",
  tempo: "100-130",
  itself: "The bell on every beat, the cross-stick on two, the high tom on four and its off-beat.",
  source: "common practice, no source",
  own: `
    bell        | x... x... x... x... |
    high-tom    | .... .... .... x.x. |
    cross-stick | .... x... .... .... |`,
  variants: [
    `
    bell        | x... x... x... x... |
    high-tom    | .... .... .... x.x. |
    cross-stick | .... x... .... .... |
    kick        | .... ..x. .... x... |`,
    `
    hi-hat-closed | x... x... x... x... |
    high-tom      | .... .... .... x.x. |
    cross-stick   | .... x... .... .... |
    kick          | x... ..x. .... x... |`,
  ],
};
