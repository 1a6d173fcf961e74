export * from "./feel.ts";
export * from "./gridText.ts";
export * from "./groove.ts";
export * from "./metre.ts";
export * from "./printGrid.ts";
