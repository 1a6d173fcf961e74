export { phonemesOf } from "./phonemes.ts";
export * from "./say.ts";
export * from "./speak.ts";
export * from "./speaker.ts";
