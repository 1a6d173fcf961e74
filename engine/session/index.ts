export * from "./calendar.ts";
export * from "./itemResult.ts";
export * from "./lessonState.ts";
export * from "./roundKind.ts";
export * from "./sessionEvent.ts";
export * from "./summarise.ts";
export * from "./takeSummary.ts";
