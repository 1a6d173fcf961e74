export * from "./demonstrate.ts";
export type { Style } from "./style.ts";
export * from "./styles.ts";
