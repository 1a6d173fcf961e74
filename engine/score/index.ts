export * from "./feel.ts";
export * from "./fill.ts";
export { GridError } from "./gridError.ts";
export * from "./gridText.ts";
export * from "./groove.ts";
export * from "./level.ts";
export * from "./metre.ts";
export * from "./printGrid.ts";
