export * from "./archiveLine.ts";
export { type Digest, hex } from "./digest.ts";
export * from "./readArchive.ts";
export * from "./writeArchive.ts";
