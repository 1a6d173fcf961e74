export * from "./enrolment.ts";
export * from "./hearSyllables.ts";
export * from "./refusal.ts";
export { type Sound, soundSeconds } from "./sound.ts";
