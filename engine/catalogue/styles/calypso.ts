import type { StyleText } from "../style.ts";

export const calypso: StyleText = {
  id: "calypso",
  name: "Calypso",
  family: "Cuba and the Caribbean",
  metre: "4/4",
  feel: "straight",
  tempo: "100-125",
  itself: "The kick on every beat, the pedal between, and the snare a sixteenth before two and before four.",
  source:
    "kick and pedal: what most bars of Groove MIDI Dataset d1-s3-17 play, snare and high tom: many of them; the ride: common practice, no source",
  own: `
    snare        | ...x .... ...x .... |
    kick         | x... x... x... x... |
    hi-hat-pedal | ..x. ..x. ..x. ..x. |`,
  variants: [
    `
    ride         | x.x. x.x. x.x. x.x. |
    high-tom     | .... ..x. .... ..x. |
    snare        | ...x .... ...x .... |
    kick         | x... x... x... x... |
    hi-hat-pedal | ..x. ..x. ..x. ..x. |`,
    `
    bell         | x... x... x... x... |
    high-tom     | .... ..x. .... ..x. |
    snare        | ...x .... .x.x .... |
    kick         | x... x... x... x... |
    hi-hat-pedal | ..x. ..x. ..x. ..x. |`,
  ],
};
