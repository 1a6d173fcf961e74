import type { StyleText } from "../style.ts";

export const disco: StyleText = {
  id: "disco",
  name: "Disco",
  family: "Club and hip-hop",
  metre: "4/4",
  feel: "straight",
  tempo: "110-130",
  itself: "The kick on every beat, the snare on two and four, closed hi-hat on the beats and open between.",
  source:
    "kick, snare and open hi-hat: Groove MIDI Dataset d1-s3-6 and d1-s1-101; closed hi-hat: common practice, no source",
  own: `
    hi-hat-closed | x... x... x... x... |
    hi-hat-open   | ..x. ..x. ..x. ..x. |
    snare         | .... x... .... x... |
    kick          | x... x... x... x... |`,
  variants: [
    `
    hi-hat-closed | x... x... x... x... |
    hi-hat-open   | ..x. ..x. ..x. ..x. |
    snare         | .... x... .... x... |
    kick          | x... x... x... x... |`,
    `
    hi-hat-closed | xx.. xx.. xx.. xx.. |
    hi-hat-open   | ..x. ..x. ..x. ..x. |
    snare         | .... x... .... x... |
    kick          | x... x... x... x... |`,
  ],
};
