/** What the learning script shares with listening, and nothing else uses: not part of the public surface. */
export { addBlurred, PLACES_PER_BEAT } from "./barModel.ts";
export { ROLE_COUNT, strokesOfHits } from "./roles.ts";
