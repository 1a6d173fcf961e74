import type { StyleText } from "../style.ts";

export const secondLine: StyleText = {
  id: "second-line",
  name: "Second line",
  family: "March and country",
  metre: "4/4",
  feel: "swung 1.3 sixteenths",
  tempo: "90-125",
  itself:
    "A parade beat between straight and swung: a busy snare, the kick on one and three and six sixteenths after it, the pedal off the beat.",
  source: "start of the kick and pedal: Groove MIDI Dataset d1-s1-100; the rest: common practice, no source",
  own: `
    kick         | x..x ..x. .... .... |
    hi-hat-pedal | ..x. ..x. ..x. ..x. |`,
  variants: [
    `
    snare        | gggX ggXg ggXg Xggg |
    kick         | x..x ..x. .... x... |
    hi-hat-pedal | ..x. ..x. ..x. ..x. |`,
    `
    snare        | ..X. .X.. g.X. g.Xx |
    kick         | x..x ..x. .... x... |
    hi-hat-pedal | ..x. ..x. ..x. ..x. |`,
  ],
};
