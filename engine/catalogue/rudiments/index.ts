export * from "./rudiment.ts";
export { rudimentGroove } from "./rudimentGroove.ts";
export * from "./rudiments.ts";
export { otherHand, readSticking, StickingTextError, stickingOf, strokeText } from "./stickingText.ts";
