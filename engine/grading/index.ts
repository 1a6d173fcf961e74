export { Aligner, align } from "./align.ts";
export * from "./band.ts";
export { leanAndSpread } from "./figures.ts";
export * from "./figureWords.ts";
export * from "./gapDrift.ts";
export * from "./grader.ts";
export type { StartPoint } from "./matching.ts";
export { placeOfGaps } from "./ornamentGaps.ts";
export { LONGEST_GRACE_MS, SHORTEST_GRACE_MS } from "./ornaments.ts";
export { limbName, numberWord, OFF_BEATS, onBeat } from "./phrases.ts";
export * from "./report.ts";
export * from "./setUpWords.ts";
export type { FormFigures, FormSlip } from "./slip.ts";
export {
  ACROSS_FAMILIES,
  GAP,
  type PairCost,
  type Slot,
  type Sounded,
  slotCost,
  WITHIN_FAMILY,
} from "./slot.ts";
export * from "./target.ts";
export { HEARD_APART_MS } from "./unison.ts";
export { GHOST_HEAVY_ABOVE, GHOSTED_BELOW, PLAIN_HEAVY_ABOVE } from "./voices.ts";
export { clockAndLimbs } from "./wander.ts";
export * from "./words.ts";
export { SMALLEST_DRIFT_PERCENT } from "./workOn.ts";
