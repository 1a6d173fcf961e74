import type { StaffScore } from "../engine/score/index.ts";
import type { Difference } from "./differences.ts";

/** One staff of each system. */
export interface StaffToEngrave {
  readonly score: StaffScore;
  /** Said at the left of its staff: "written", "heard". */
  readonly label?: string;
  /** What differs from what is written, by the note's place in the score's source. */
  readonly differences?: ReadonlyMap<number, Difference>;
}
