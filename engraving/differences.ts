import type { StaffPlace } from "../engine/score/index.ts";

/** How a heard stroke differs from the written one. Each is told by a shape; colour only repeats it. */
export type Difference =
  /** Written, not played: an empty dotted ring in the place of the head. */
  | { readonly kind: "left-out" }
  /** Played, not written: the head stands in a square. */
  | { readonly kind: "added" }
  /** Another sound than written: the head that was played, joined by a line to a dotted ring in the written place. */
  | { readonly kind: "other-sound"; readonly written: StaffPlace }
  /** Played before its place: a wedge over the note that points left. */
  | { readonly kind: "ahead" }
  /** Played after its place: a wedge over the note that points right. */
  | { readonly kind: "behind" };

export type DifferenceKind = Difference["kind"];
