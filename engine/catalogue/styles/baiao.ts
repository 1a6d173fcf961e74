import type { StyleText } from "../style.ts";

export const baiao: StyleText = {
  id: "baiao",
  name: "Baião",
  family: "Brazil and Argentina",
  metre: "2/4",
  feel: "straight",
  tempo: "95-125",
  itself:
    "The kick on one and three sixteenths after, the stick on the last off-beat of the bar, the pedal between the beats.",
  source:
    "what most bars of Groove MIDI Dataset d1-s1-145 and d1-s1-146 play, and the figure of the cymbal in the second; the ride: common practice, no source",
  own: `
    cross-stick  | .... ..x. |
    kick         | x..x .... |
    hi-hat-pedal | ..x. ..x. |`,
  variants: [
    `
    ride         | x.x. x.x. |
    cross-stick  | .... ..x. |
    kick         | x..x .... |
    hi-hat-pedal | ..x. ..x. |`,
    `
    ride         | xxx. xxx. |
    snare        | .... ..X. |
    kick         | x..x .... |
    hi-hat-pedal | ..x. ..x. |`,
  ],
};
