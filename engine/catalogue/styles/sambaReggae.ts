import type { StyleText } from "../style.ts";

export const sambaReggae: StyleText = {
  id: "samba-reggae",
  name: "Samba reggae",
  family: "Brazil and Argentina",
  metre: "4/4",
  feel: "straight",
  tempo: "85-110",
  itself:
    "Low drums pass the beat round: high on one and three, middle around two, four sixteenths on the floor tom to close.",
  source: "what most bars of Groove MIDI Dataset d5-s1-10 play",
  own: `
    snare        | ...x .... ...x .... |
    high-tom     | x... .... x... .... |
    mid-tom      | .... x.x. .... .... |
    floor-tom    | .... .... .... xxxx |
    hi-hat-pedal | ..x. ..x. ..x. ..x. |`,
  variants: [
    `
    snare        | ...x .... ...x .... |
    high-tom     | x... .... x... .... |
    mid-tom      | .... x.x. .... .... |
    floor-tom    | .... .... .... xxxx |
    hi-hat-pedal | ..x. ..x. ..x. ..x. |`,
    `
    snare        | gggX gggg gggX gggg |
    high-tom     | x... .... x... .... |
    mid-tom      | .... x.x. .... .... |
    floor-tom    | .... .... .... xxxx |
    hi-hat-pedal | ..x. ..x. ..x. ..x. |`,
  ],
};
