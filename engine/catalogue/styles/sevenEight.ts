import type { StyleText } from "../style.ts";

export const sevenEight: StyleText = {
  id: "seven-eight",
  name: "Seven-eight",
  family: "Odd metres",
  metre: "7/8",
  feel: "straight",
  tempo: "200-280",
  itself:
    "A rock bar with its last eighth cut off: kick on the first and fifth eighth, snare on the third and seventh.",
  source: "common practice, no source",
  own: `
    snare | ..x...x |
    kick  | x...x.. |`,
  variants: [
    `
    hi-hat-closed | xxxxxxx |
    snare         | ..x...x |
    kick          | x...x.. |`,
    `
    ride  | xxxxxxx |
    snare | ..x...x |
    kick  | x..xx.. |`,
    `
    hi-hat-closed | x.x.x.x | .x.x.x. |
    snare         | ..x...x | ..x...x |
    kick          | x...x.. | x...x.. |`,
  ],
};
