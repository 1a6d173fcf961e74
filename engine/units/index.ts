export * from "./chance.ts";
export * from "./fraction.ts";
export * from "./robust.ts";
export * from "./time.ts";
export * from "./wilson.ts";
