export * from "./chartLook.ts";
export * from "./namedInOrder.ts";
export { type NamedThing, type NameMatch, NameMatcher } from "./nameMatcher.ts";
export { RUDIMENT_NAMES, rudimentMatcher } from "./rudimentNames.ts";
export { matchSign } from "./signNames.ts";
export * from "./sticking/index.ts";
