export { type Background, readBackground } from "./background.ts";
export * from "./certainty.ts";
export * from "./hear.ts";
export * from "./hearing.ts";
export type { KnownGroove } from "./knownGroove.ts";
export * from "./listener.ts";
export type { Click } from "./pulse.ts";
export { catalogueStock, type ReferenceGroove, type Stock, shelfStock } from "./stock.ts";
