export * from "./counting.ts";
export * from "./growth.ts";
export * from "./hearing/index.ts";
export * from "./phraseText.ts";
export * from "./syllables.ts";
export * from "./voice/index.ts";
export * from "./words.ts";
