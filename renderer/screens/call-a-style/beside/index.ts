export { BesideTake, type BesideTakeProps } from "./BesideTake.tsx";
export { EarlierTakes } from "./EarlierTakes.tsx";
export * from "./takesBeside.ts";
