export { BesideTake, type BesideTakeProps } from "./BesideTake.tsx";
export { ChooseBeside } from "./ChooseBeside.tsx";
export { ComparedTakes, type NamedTake } from "./ComparedTakes.tsx";
export { EarlierTakes } from "./EarlierTakes.tsx";
export * from "./takesBeside.ts";
