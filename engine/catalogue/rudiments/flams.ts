import type { RudimentText } from "./rudimentText.ts";

/**
 * Flams, 20 to 30. Order of hands: the Percussive Arts Society's sheet; note values and accents are ours where sheets
 * differ (from memory).
 */
export const FLAMS: readonly RudimentText[] = [
  { number: 20, name: "Flam", metre: "2/4", sticking: "4: lR rL" },
  { number: 21, name: "Flam Accent", metre: "6/8", sticking: "8: lR> L R rL> R L" },
  { number: 22, name: "Flam Tap", metre: "2/4", sticking: "16: lR> R rL> L" },
  { number: 23, name: "Flamacue", metre: "2/4", sticking: "16: lR L> R L 4: lR" },
  {
    number: 24,
    name: "Flam Paradiddle",
    otherNames: ["Flamadiddle"],
    metre: "2/4",
    sticking: "16: lR> L R R rL> R L L",
  },
  {
    number: 25,
    name: "Single Flammed Mill",
    otherNames: ["Flammed mill", "Single flam mill"],
    metre: "2/4",
    sticking: "16: lR> R L R rL> L R L",
  },
  {
    number: 26,
    name: "Flam Paradiddle-Diddle",
    otherNames: ["Flamadiddle-diddle"],
    metre: "6/8",
    sticking: "16: lR> L R R L L rL> R L L R R",
  },
  { number: 27, name: "Pataflafla", metre: "2/4", sticking: "16: lR> L R rL>" },
  {
    number: 28,
    name: "Swiss Army Triplet",
    otherNames: ["Swiss triplet"],
    metre: "2/4",
    sticking: "8t: lR> R L",
  },
  { number: 29, name: "Inverted Flam Tap", metre: "2/4", sticking: "16: lR> L rL> R" },
  { number: 30, name: "Flam Drag", metre: "6/8", sticking: "8: lR> 16: L L 8: R rL> 16: R R 8: L" },
];
