import type { StyleText } from "../style.ts";

export const fiveFour: StyleText = {
  id: "five-four",
  name: "Five-four",
  family: "Odd metres",
  metre: "5/4",
  feel: "straight",
  tempo: "100-150",
  itself:
    "Five beats of even eighths in three and two: the kick on one and four, the snare on three and five.",
  source: "common practice, no source",
  own: `
    hi-hat-closed | x.x. x.x. x.x. x.x. x.x. |
    snare         | .... .... x... .... x... |
    kick          | x... .... .... x... .... |`,
  variants: [
    `
    hi-hat-closed | x.x. x.x. x.x. x.x. x.x. |
    snare         | .... .... x... .... x... |
    kick          | x... ..x. .... x... .... |`,
    `
    ride  | x.x. x.x. x.x. x.x. x.x. |
    snare | .... .... x... .... x... |
    kick  | x... x... .... x.x. .... |`,
  ],
};
