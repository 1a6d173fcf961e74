import type { StyleText } from "../style.ts";

export const twelveEightBlues: StyleText = {
  id: "twelve-eight-blues",
  name: "Twelve-eight blues",
  family: "Swing and shuffle",
  metre: "12/8",
  feel: "straight",
  tempo: "50-75",
  itself:
    "All twelve eighths on the cymbal, the kick on the first and third beat, the snare on the second and fourth.",
  source: "common practice, no source",
  isEveryday: true,
  own: `
    hi-hat-closed | xxx xxx xxx xxx |
    snare         | ... X.. ... X.. |
    kick          | x.. ... x.. ... |`,
  variants: [
    `
    hi-hat-closed | xxx xxx xxx xxx |
    snare         | ... X.. ... X.. |
    kick          | x.. ... x.. ... |`,
    `
    hi-hat-closed | xxx xxx xxx xxx |
    snare         | ... X.. ... X.. |
    kick          | x.. ... x.x ... |`,
    `
    ride         | xxx xxx xxx xxx |
    snare        | ... X.. ... X.. |
    kick         | x.. ... x.. ... |
    hi-hat-pedal | ... x.. ... x.. |`,
  ],
};
