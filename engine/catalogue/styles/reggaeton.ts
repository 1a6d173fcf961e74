import type { StyleText } from "../style.ts";

export const reggaeton: StyleText = {
  id: "reggaeton",
  name: "Reggaeton",
  family: "Cuba and the Caribbean",
  metre: "4/4",
  feel: "straight",
  tempo: "85-105",
  itself:
    "The kick on every beat and the snare across it: a sixteenth before two and an eighth after it, and the same about four.",
  source:
    "what most bars of Groove MIDI Dataset d1-s1-79 play in the kick, and many in snare or cross-stick; hi-hat: common practice, no source",
  own: `
    snare | ...x ..x. ...x ..x. |
    kick  | x... x... x... x... |`,
  variants: [
    `
    hi-hat-closed | x.x. x.x. x.x. x.x. |
    snare         | ...x ..x. ...x ..x. |
    kick          | x... x... x... x... |`,
    `
    hi-hat-closed | xxxx xxxx xxxx xxxx |
    snare         | ...x ..x. ...x ..x. |
    kick          | x... x... x... x... |`,
  ],
};
