export * from "./backTurned/round.ts";
export * from "./callAStyle/besideGroove.ts";
export * from "./callAStyle/earlierTakes.ts";
export * from "./callAStyle/judgement.ts";
export { judgeTake } from "./callAStyle/judgeTake.ts";
export * from "./callAStyle/round.ts";
export {
  hearTake,
  STOCK,
  stockOfPlayer,
  TakeListener,
} from "./callAStyle/takeListener.ts";
export { withShelf } from "./callAStyle/withShelf.ts";
export * from "./cardTable/card.ts";
export * from "./cardTable/choices.ts";
export * from "./cardTable/round.ts";
export * from "./cardTable/struckRhythm.ts";
export * from "./frame/play.ts";
export * from "./frame/steps.ts";
export * from "./sayAndStrike/round.ts";
export * from "./spotting/naming.ts";
export * from "./spotting/nextThing.ts";
export * from "./spotting/performed.ts";
export * from "./spotting/proposal.ts";
export * from "./spotting/round.ts";
export * from "./spotting/spottable.ts";
export * from "./spotting/thing.ts";
export * from "./trading/round.ts";
export * from "./trading/timeline.ts";
export * from "./wallChart/dealtTasks.ts";
export * from "./wallChart/round.ts";
export * from "./wallChart/stickingAnswer.ts";
export * from "./wallChart/task.ts";
