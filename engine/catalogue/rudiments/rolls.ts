import type { RudimentText } from "./rudimentText.ts";

/**
 * Rolls, 1 to 15. Order of hands: the Percussive Arts Society's sheet; note values and accents are ours where sheets
 * differ (from memory). Rolls of counted strokes are written open, each stroke with its own note.
 */
export const ROLLS: readonly RudimentText[] = [
  {
    number: 1,
    name: "Single Stroke Roll",
    otherNames: ["Single roll", "Singles"],
    rollPart: "single",
    metre: "2/4",
    sticking: "16: R L R L R L R L",
  },
  {
    number: 2,
    name: "Single Stroke Four",
    otherNames: ["Four stroke ruff"],
    rollPart: "single",
    metre: "2/4",
    sticking: "8t: R L R 4: L> / 8t: L R L 4: R>",
  },
  {
    number: 3,
    name: "Single Stroke Seven",
    rollPart: "single",
    metre: "2/4",
    sticking: "16t: R L R L R L 4: R> / 16t: L R L R L R 4: L>",
  },
  {
    number: 4,
    name: "Multiple Bounce Roll",
    otherNames: ["Buzz roll", "Press roll", "Closed roll", "Multiple bounce"],
    rollPart: "bounce",
    metre: "2/4",
    sticking: "8: R~ L~ R~ L~",
  },
  {
    number: 5,
    name: "Triple Stroke Roll",
    otherNames: ["Triple roll"],
    rollPart: "bounce",
    metre: "2/4",
    sticking: "8t: R R R L L L",
  },
  {
    number: 6,
    name: "Double Stroke Open Roll",
    otherNames: ["Double stroke roll", "Open roll", "Long roll", "Open double stroke roll"],
    rollPart: "double",
    metre: "2/4",
    sticking: "16: R R L L",
  },
  {
    number: 7,
    name: "Five Stroke Roll",
    rollPart: "double",
    metre: "2/4",
    sticking: "32: R R L L 8: R> / 32: L L R R 8: L>",
  },
  {
    number: 8,
    name: "Six Stroke Roll",
    rollPart: "double",
    metre: "2/4",
    sticking: "16: R> 32: L L R R 16: L> / 16: L> 32: R R L L 16: R>",
  },
  {
    number: 9,
    name: "Seven Stroke Roll",
    rollPart: "double",
    metre: "2/4",
    sticking: "32: R R L L R R 16: L>",
  },
  {
    number: 10,
    name: "Nine Stroke Roll",
    rollPart: "double",
    metre: "2/4",
    sticking: "32: R R L L R R L L 4: R> / 32: L L R R L L R R 4: L>",
  },
  {
    number: 11,
    name: "Ten Stroke Roll",
    rollPart: "double",
    metre: "2/4",
    sticking: "32: R R L L R R L L 8: R> L>",
  },
  {
    number: 12,
    name: "Eleven Stroke Roll",
    rollPart: "double",
    metre: "2/4",
    sticking: "32: R R L L R R L L R R 8.: L>",
  },
  {
    number: 13,
    name: "Thirteen Stroke Roll",
    rollPart: "double",
    metre: "2/4",
    sticking: "32: R R L L R R L L R R L L 8: R> / 32: L L R R L L R R L L R R 8: L>",
  },
  {
    number: 14,
    name: "Fifteen Stroke Roll",
    rollPart: "double",
    metre: "2/4",
    sticking: "32: R R L L R R L L R R L L R R 16: L>",
  },
  {
    number: 15,
    name: "Seventeen Stroke Roll",
    rollPart: "double",
    metre: "3/4",
    sticking: "32: R R L L R R L L R R L L R R L L 4: R> / 32: L L R R L L R R L L R R L L R R 4: L>",
  },
];
