export { checkSticking, StickingError } from "./checkSticking.ts";
export type { PlayedStroke } from "./playedStroke.ts";
export * from "./stickingReport.ts";
