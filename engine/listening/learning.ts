/**
 * What `scripts/learn.ts` must count with exactly as listening does, so that what it learns fits: the same roles, places,
 * blur, pulses and features. Apart from `index.ts` because no other part of the program may depend on how bars are laid
 * out in memory.
 */
export { type Background, readBackground } from "./background.ts";
export { featuresOfBars } from "./barFeatures.ts";
export { addBlurred, PLACES_PER_BEAT } from "./barModel.ts";
export { timeOfBeat } from "./beatMap.ts";
export { namingFeatures, standingOutMost } from "./naming.ts";
export { type BarHypothesis, type PulseHypothesis, pulseHypotheses } from "./pulse.ts";
export { likelyBars, likelyPulses } from "./reading.ts";
export { ROLE_COUNT, SOUND_ROLES, strokesOfHits } from "./roles.ts";
export type { Tree } from "./trees.ts";
export { weigh } from "./weighing.ts";
export type { Weight } from "./weights.ts";
