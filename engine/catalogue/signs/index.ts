export * from "./rhythm.ts";
export * from "./sign.ts";
export * from "./signs.ts";
