export * from "./callAStyle/besideGroove.ts";
export * from "./callAStyle/earlierTakes.ts";
export * from "./callAStyle/judgement.ts";
export { judgeTake } from "./callAStyle/judgeTake.ts";
export * from "./callAStyle/round.ts";
export { stockOfPlayer, TakeListener } from "./callAStyle/takeListener.ts";
