import type { StyleText } from "../style.ts";

export const samba: StyleText = {
  id: "samba",
  name: "Samba",
  family: "Brazil and Argentina",
  metre: "2/4",
  feel: "straight",
  tempo: "85-120",
  itself:
    "The kick’s one and its sixteenth before, the low drum answering on two, the pedal between, hands in sixteenths.",
  source:
    "pedal and floor tom: Groove MIDI Dataset d5-s1-3 and d5-s1-4; the accents of the hands: samba timeline, Toussaint, BRIDGES 2005; kick: common practice, no source",
  own: `
    floor-tom    | .... x... |
    kick         | x..x x..x |
    hi-hat-pedal | ..x. ..x. |`,
  variants: [
    `
    snare        | XgXg gXgX | gXgg XgXg |
    floor-tom    | .... X... | .... X... |
    kick         | x..x x..x | x..x x..x |
    hi-hat-pedal | ..x. ..x. | ..x. ..x. |`,
    `
    ride         | x.x. .x.x | .x.. x.x. |
    snare        | .g.g g.g. | g.gg .g.g |
    floor-tom    | .... X... | .... X... |
    kick         | x..x x..x | x..x x..x |
    hi-hat-pedal | ..x. ..x. | ..x. ..x. |`,
  ],
};
