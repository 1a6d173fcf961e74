export * from "./demonstrate.ts";
export { FAMILIES, type Family } from "./family.ts";
export * from "./fills.ts";
export { demonstratedBeats, demonstratedDownbeats, type Intention } from "./intended.ts";
export type { Orchestration } from "./orchestration.ts";
export { FillPlaceError, type PlacedFill } from "./placedFill.ts";
export type { Style } from "./style.ts";
export * from "./styles.ts";
export { rubato, suddenChange, type TempoCourse } from "./tempoCourse.ts";
