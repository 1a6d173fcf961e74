import type { StyleText } from "../style.ts";

export const cumbia: StyleText = {
  id: "cumbia",
  name: "Cumbia",
  family: "Cuba and the Caribbean",
  metre: "4/4",
  feel: "straight",
  tempo: "80-110",
  itself:
    "The scraper figure of long and two short on every beat of the hi-hat, with a stroke off every beat below.",
  source: "scraper: Toussaint, BRIDGES 2005, E(3,4); the rest: common practice, no source",
  own: `
    hi-hat-closed | x.xx x.xx x.xx x.xx |`,
  variants: [
    `
    hi-hat-closed | x.xx x.xx x.xx x.xx |
    cross-stick   | ..x. ..x. ..x. ..x. |
    kick          | x... .... x... .... |`,
    `
    hi-hat-closed | x.xx x.xx x.xx x.xx |
    high-tom      | .... .... .... ..x. |
    cross-stick   | ..x. ..x. ..x. .... |
    kick          | x... x... x... x... |`,
  ],
};
