import type { StyleText } from "../style.ts";

export const steppers: StyleText = {
  id: "steppers",
  name: "Steppers",
  family: "Jamaica",
  metre: "4/4",
  feel: "straight",
  tempo: "65-90",
  itself:
    "The kick steps on every beat, the cross-stick on two and four, the hi-hat in sixteenths or between the beats.",
  source:
    "what most bars of Groove MIDI Dataset d1-s1-201 play, in the second; the rest: common practice, no source",
  own: `
    hi-hat-closed | ..x. ..x. ..x. ..x. |
    cross-stick   | .... x... .... x... |
    kick          | x... x... x... x... |`,
  variants: [
    `
    hi-hat-closed | ..xx ..xx ..xx ..xx |
    cross-stick   | .... x... .... x... |
    kick          | x... x... x... x... |`,
    `
    hi-hat-closed | xxxx xxxx xxxx xxxx |
    cross-stick   | .... x... .... x... |
    kick          | x... x... x... x... |`,
  ],
};
