import type { StyleText } from "../style.ts";

export const rockSixteenths: StyleText = {
  id: "rock-sixteenths",
  name: "Rock sixteenths",
  family: "Rock",
  metre: "4/4",
  feel: "straight",
  tempo: "60-100",
  itself: "All sixteenths on the hi-hat, the snare on two and four.",
  source: "common practice, no source",
  own: `
    hi-hat-closed | xxxx xxxx xxxx xxxx |
    snare         | .... x... .... x... |
    kick          | x... .... x... .... |`,
  variants: [
    `
    hi-hat-closed | Xxxx Xxxx Xxxx Xxxx |
    snare         | .... X... .... X... |
    kick          | x... .... x... .... |`,
    `
    hi-hat-closed | Xxxx Xxxx Xxxx Xxxx |
    snare         | .... X... .... X... |
    kick          | x... ...x x.x. .... |`,
    `
    hi-hat-closed | Xxxx Xxxx Xxxx Xx.x |
    hi-hat-open   | .... .... .... ..x. |
    snare         | .... X... .... X... |
    kick          | x... .... x.x. .... |`,
  ],
};
