import type { StyleText } from "../style.ts";

export const rumba: StyleText = {
  id: "rumba",
  name: "Rumba",
  family: "Cuba and the Caribbean",
  metre: "4/4",
  feel: "straight",
  tempo: "90-120",
  itself: "The rumba clave on the cross-stick over the steady pedal, the drums free to speak in the gaps.",
  source:
    "clave: Toussaint, BRIDGES 2002, rumba 3-2, and Groove MIDI Dataset d1-s2-161; pedal: the same take; the rest: common practice, no source",
  own: `
    cross-stick  | x..x ...x ..x. x... |
    hi-hat-pedal | x... x... x... x... |`,
  variants: [
    `
    high-tom     | .... .... x..x ...x |
    cross-stick  | x..x ...x ..x. x... |
    kick         | ...x .... .... .... |
    hi-hat-pedal | x... x... x... x... |`,
    `
    ride         | x.xx .xx. x.x. xx.x |
    cross-stick  | x..x ...x ..x. x... |
    kick         | ...x .... .... .... |
    hi-hat-pedal | x... x... x... x... |`,
  ],
};
