export * from "./demonstrate.ts";
export * from "./fills.ts";
export type { Style } from "./style.ts";
export * from "./styles.ts";
