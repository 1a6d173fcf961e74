import type { RudimentText } from "./rudimentText.ts";

/** Diddles, 16 to 19. Order of hands: the Percussive Arts Society's sheet; accents on the leading stroke (from memory). */
export const DIDDLES: readonly RudimentText[] = [
  {
    number: 16,
    name: "Single Paradiddle",
    otherNames: ["Paradiddle"],
    metre: "2/4",
    sticking: "16: R> L R R L> R L L",
  },
  {
    number: 17,
    name: "Double Paradiddle",
    metre: "6/8",
    sticking: "16: R> L R L R R L> R L R L L",
  },
  {
    number: 18,
    name: "Triple Paradiddle",
    metre: "4/4",
    sticking: "16: R> L R L R L R R L> R L R L R L L",
  },
  {
    number: 19,
    name: "Single Paradiddle-Diddle",
    otherNames: ["Paradiddle-diddle"],
    metre: "6/8",
    sticking: "16: R> L R R L L",
  },
];
