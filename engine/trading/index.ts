export * from "./aim.ts";
export * from "./compare.ts";
export * from "./comparisonWords.ts";
export * from "./distances.ts";
export * from "./freeAnswer.ts";
export * from "./phraseDistances.ts";
export { type PhraseHit, type PhraseStroke, phraseStrokes } from "./phraseStrokes.ts";
export type { MovedTouch } from "./touchMoved.ts";
export type { Transposition } from "./transposition.ts";
