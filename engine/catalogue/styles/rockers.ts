import type { StyleText } from "../style.ts";

export const rockers: StyleText = {
  id: "rockers",
  name: "Rockers",
  family: "Jamaica",
  metre: "4/4",
  feel: "straight",
  tempo: "65-90",
  itself:
    "The drop filled in: kick on one and three, cross-stick on two and four, the hi-hat skipping in sixteenths.",
  source: "common practice, no source; books differ on the kick",
  own: `
    cross-stick | .... x... .... x... |`,
  variants: [
    `
    hi-hat-closed | x.xx x.xx x.xx x.xx |
    cross-stick   | .... x... .... x... |
    kick          | x... .... x... .... |`,
    `
    hi-hat-closed | x.xx x.xx x.xx x.xx |
    cross-stick   | .... x... .... x... |
    kick          | x... ..x. x... ..x. |`,
  ],
};
