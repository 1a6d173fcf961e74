import type { StyleText } from "../style.ts";

export const merengue: StyleText = {
  id: "merengue",
  name: "Merengue",
  family: "Cuba and the Caribbean",
  metre: "4/4",
  feel: "straight",
  tempo: "120-160",
  itself:
    "The kick on every beat, the snare’s syncopated call, and four sixteenths on the high tom to close the bar.",
  source: "what most bars of Groove MIDI Dataset d4-s1-9 play (one player)",
  own: `
    high-tom | .... .... .... xxxx |
    snare    | ...x x.xx x.x. .... |
    kick     | x... x... x... x... |`,
  variants: [
    `
    high-tom | .... .... .... xxxx |
    snare    | ...x x.xx x.x. .... |
    kick     | x... x... x... x... |`,
    `
    hi-hat-closed | x.x. x.x. x.x. x.x. |
    high-tom      | .... .... .... xxxx |
    snare         | ...x x.xx x.x. .... |
    kick          | x... x... x... x... |`,
  ],
};
