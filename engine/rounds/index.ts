export * from "./callAStyle/besideGroove.ts";
export * from "./callAStyle/judgement.ts";
export { judgeTake } from "./callAStyle/judgeTake.ts";
export * from "./callAStyle/round.ts";
export { TakeListener } from "./callAStyle/takeListener.ts";
