export * from "./archive/index.ts";
export * from "./csv.ts";
export * from "./grooveSmf.ts";
export * from "./musicXml.ts";
export * from "./playedSmf.ts";
export { NoKeyError, type WrittenScore, writeSmf } from "./scoreSmf.ts";
export * from "./smf.ts";
export * from "./takeSmf.ts";
export * from "./transcribed.ts";
