import type { StyleText } from "../style.ts";

export const boomBap: StyleText = {
  id: "boom-bap",
  name: "Boom-bap",
  family: "Club and hip-hop",
  metre: "4/4",
  feel: "swung 1.3 sixteenths",
  tempo: "80-100",
  itself: "The kick on one and on the eighth after three, a heavy back-beat, sixteenths a little swung.",
  source: "kick and snare: Groove MIDI Dataset d3-s2-31; the rest: common practice, no source",
  own: `
    hi-hat-closed | x.x. x.x. x.x. x.x. |
    snare         | .... x... .... x... |
    kick          | x... .... ..x. .... |`,
  variants: [
    `
    hi-hat-closed | x.x. x.x. x.x. x.x. |
    snare         | .... X... .... X... |
    kick          | x... ...x ..x. .... |`,
    `
    hi-hat-closed | x.x. x.xx x.x. x.xx |
    snare         | .... X... .... X... |
    kick          | x..x .... ..x. ...x |`,
  ],
};
