import type { RudimentText } from "./rudimentText.ts";

/**
 * Drags, 31 to 40. Order of hands: the Percussive Arts Society's sheet; note values and accents are ours where sheets
 * differ (from memory).
 */
export const DRAGS: readonly RudimentText[] = [
  { number: 31, name: "Drag", otherNames: ["Half drag", "Ruff"], metre: "2/4", sticking: "4: llR rrL" },
  {
    number: 32,
    name: "Single Drag Tap",
    otherNames: ["Single drag"],
    metre: "2/4",
    sticking: "8: llR L> rrL R>",
  },
  {
    number: 33,
    name: "Double Drag Tap",
    otherNames: ["Double drag"],
    metre: "6/8",
    sticking: "8: llR llR L> rrL rrL R>",
  },
  { number: 34, name: "Lesson 25", otherNames: ["Two and three"], metre: "2/4", sticking: "16: llR L 8: R>" },
  {
    number: 35,
    name: "Single Dragadiddle",
    otherNames: ["Dragadiddle"],
    metre: "2/4",
    sticking: "32: R> R 16: L R R 32: L> L 16: R L L",
  },
  {
    number: 36,
    name: "Drag Paradiddle #1",
    metre: "6/8",
    sticking: "8: R> 16: llR L R R 8: L> 16: rrL R L L",
  },
  {
    number: 37,
    name: "Drag Paradiddle #2",
    metre: "2/4",
    sticking: "8: R> llR 16: llR L R R 8: L> rrL 16: rrL R L L",
  },
  {
    number: 38,
    name: "Single Ratamacue",
    metre: "2/4",
    sticking: "8t: llR L R 4: L> 8t: rrL R L 4: R>",
  },
  {
    number: 39,
    name: "Double Ratamacue",
    metre: "3/4",
    sticking: "4: llR 8t: llR L R 4: L> rrL 8t: rrL R L 4: R>",
  },
  {
    number: 40,
    name: "Triple Ratamacue",
    metre: "4/4",
    sticking: "4: llR llR 8t: llR L R 4: L> rrL rrL 8t: rrL R L 4: R>",
  },
];
