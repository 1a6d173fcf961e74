export * from "./confusion.ts";
export * from "./question.ts";
export * from "./questionOf.ts";
export * from "./rungs.ts";
export * from "./surface.ts";
export * from "./threshold.ts";
