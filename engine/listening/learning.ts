/**
 * What `scripts/learn-bars.ts` must count with exactly as listening does, so that the bars it learns fit: the same
 * roles, places and blur. Apart from `index.ts` because no other part of the program may depend on how bars are laid
 * out in memory.
 */
export { addBlurred, PLACES_PER_BEAT } from "./barModel.ts";
export { ROLE_COUNT, strokesOfHits } from "./roles.ts";
