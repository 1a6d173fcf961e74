import type { StyleText } from "../style.ts";

export const soca: StyleText = {
  id: "soca",
  name: "Soca",
  family: "Cuba and the Caribbean",
  metre: "4/4",
  feel: "straight",
  tempo: "110-160",
  itself: "The kick on every beat, the open hi-hat between, the snare in threes across them.",
  source: "common practice, no source",
  own: `
    hi-hat-open | ..x. ..x. ..x. ..x. |
    snare       | ...x ..x. ...x ..x. |
    kick        | x... x... x... x... |`,
  variants: [
    `
    hi-hat-open | ..x. ..x. ..x. ..x. |
    snare       | ...x ..x. ...x ..x. |
    kick        | x... x... x... x... |`,
    `
    bell  | x.xx x.xx x.xx x.xx |
    snare | ...x ..x. ...x ..x. |
    kick  | x... x... x... x... |`,
  ],
};
