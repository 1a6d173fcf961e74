import type { StyleText } from "../style.ts";

export const tango: StyleText = {
  id: "tango",
  name: "Tango",
  family: "Brazil and Argentina",
  metre: "4/4",
  feel: "straight",
  tempo: "110-130",
  itself: "All four beats marked on the snare, and the off-beat of four that leads back to one.",
  source: "common practice, no source",
  own: `
    snare | x... x... x... x.x. |
    kick  | x... .... x... .... |`,
  variants: [
    `
    snare | X... x... X... x.x. |
    kick  | x... .... x... .... |`,
    `
    snare | X... x... X... x.x. |
    kick  | x... ..x. x... x... |`,
  ],
};
