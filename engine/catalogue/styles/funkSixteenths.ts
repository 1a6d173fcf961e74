import type { StyleText } from "../style.ts";

export const funkSixteenths: StyleText = {
  id: "funk-sixteenths",
  name: "Funk sixteenths",
  family: "Soul and funk",
  metre: "4/4",
  feel: "straight",
  tempo: "90-115",
  itself: "All sixteenths on the hi-hat, a strong back-beat, and ghost notes on the sixteenths around it.",
  source: "common practice, no source",
  own: `
    hi-hat-closed | xxxx xxxx xxxx xxxx |
    snare         | .... x..g .g.. x..g |`,
  variants: [
    `
    hi-hat-closed | xxxx xxxx xxxx xxxx |
    snare         | .... X..g .g.. X..g |
    kick          | x.x. ..x. ..x. .... |`,
    `
    hi-hat-closed | xxxx xxxx xxxx xx.x |
    hi-hat-open   | .... .... .... ..x. |
    snare         | .... X..g .g.. X..g |
    kick          | x..x .... ..x. .... |`,
  ],
};
