import type { StyleText } from "../style.ts";

export const songo: StyleText = {
  id: "songo",
  name: "Songo",
  family: "Cuba and the Caribbean",
  metre: "4/4",
  feel: "straight",
  tempo: "90-120",
  itself: "The kick around the beats while the pedal keeps them, the hands free on snare and cymbal.",
  source:
    "pedal: what most bars of Groove MIDI Dataset d5-s1-14 play; kick and hands: common practice, no source",
  own: `
    kick         | ...x ..x. ...x ..x. |
    hi-hat-pedal | x... x... x... x... |`,
  variants: [
    `
    ride         | x... x.xx x.x. x... |
    snare        | .x.. .... .x.. .x.. |
    kick         | ...x ..x. ...x ..x. |
    hi-hat-pedal | x... x... x... x... |`,
    `
    bell         | x... x... x... x... |
    snare        | .x.. ...x .x.. ...x |
    kick         | ...x ..x. ...x ..x. |
    hi-hat-pedal | x... x... x... x... |`,
  ],
};
