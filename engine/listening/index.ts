export { type Background, readBackground } from "./background.ts";
export * from "./certainty.ts";
export { type Counting, placesWords } from "./countedPlaces.ts";
export { KNOWN_FILLS, knownFill } from "./fillLikelihood.ts";
export * from "./hear.ts";
export * from "./hearing.ts";
export type { KnownGroove } from "./knownGroove.ts";
export { type KnownParts, knownParts } from "./knownParts.ts";
export * from "./listener.ts";
export { withOwnTakes } from "./ownTakes.ts";
export type { Click } from "./pulse.ts";
export { asGroove, type Heading, type Quantised, quantise, type Unsure } from "./quantise.ts";
export { type FileMap, headingOfFile, pulseOfFile } from "./quantising/fileBars.ts";
export { movedBeat } from "./quantising/movedBeat.ts";
export { type FoundGroove, type RepeatingGroove, repeatingGroove, repeatingIn } from "./repeatingGroove.ts";
export {
  catalogueStock,
  type ReferenceGroove,
  type Stock,
  shelfStock,
  withoutParts,
  writtenGroove,
} from "./stock.ts";
export * from "./tapTempo.ts";
export { inSentence, norWords, whyWords } from "./why.ts";
