export * from "./entry.ts";
export * from "./listened.ts";
export * from "./shelfIndex.ts";
export { stockEntries } from "./stockEntries.ts";
export * from "./strokes.ts";
export * from "./written.ts";
