export * from "./grooveSmf.ts";
export * from "./smf.ts";
export * from "./takeSmf.ts";
