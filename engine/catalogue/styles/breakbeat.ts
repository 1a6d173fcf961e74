import type { StyleText } from "../style.ts";

export const breakbeat: StyleText = {
  id: "breakbeat",
  name: "Breakbeat",
  family: "Club and hip-hop",
  metre: "4/4",
  feel: "straight",
  tempo: "90-175",
  itself: "Two kicks to open, one pushed past three, and ghost notes that roll between the back-beats.",
  source: "common practice, no source",
  own: `
    hi-hat-closed | x.x. x.x. x.x. x.x. |
    snare         | .... x..g .g.. x..g |
    kick          | x.x. .... ..x. .... |`,
  variants: [
    `
    hi-hat-closed | x.x. x.x. x.x. x.x. |
    snare         | .... X..g .g.. X..g |
    kick          | x.x. .... ..x. .... |`,
    `
    ride  | x.x. x.x. x.x. x.x. |
    snare | .... X..g .g.. X..g |
    kick  | x.x. .... ..xx .... |`,
  ],
};
