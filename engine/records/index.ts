export * from "./door.ts";
export * from "./doorNames.ts";
export * from "./ending.ts";
export * from "./hitChunk.ts";
export * from "./lesson.ts";
export * from "./reading.ts";
export type { Step } from "./step.ts";
export * from "./storedEvent.ts";
export * from "./student.ts";
