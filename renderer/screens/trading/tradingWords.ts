/** Whose turn it is and how long, in words that are read from two metres. */
import { numberWord } from "../../../engine/grading/index.ts";
import type { Side, TurnNow } from "../../../engine/trading/index.ts";
import type { TradingNow } from "./tradingNow.ts";

/** Whether this side plays now. */
export function hasTurn(at: TurnNow, side: Side): boolean {
  if (at.stage !== "on" || at.turn.part === "way") return false;
  return at.turn.part === "groove" || at.turn.side === side;
}

type At = Pick<TradingNow, "at" | "turns">;

export function turnWords({ at, turns }: At, names: readonly [string, string]): string {
  if (at === null) return `${names[turns[0]?.side ?? 0]} begins.`;
  switch (at.stage) {
    case "before":
      return at.beatsLeft > 0 ? `${names[at.next.side]} in ${at.beatsLeft}` : names[at.next.side];
    case "on":
      if (at.turn.part === "way") return `On its way to ${names[1]}`;
      return at.turn.part === "groove" ? "Both keep the groove." : names[at.turn.side];
    case "after":
      return "That was it.";
  }
}

export function barsLeftWords({ at }: At): string {
  if (at === null) return "The pulse is the first player’s.";
  switch (at.stage) {
    case "before":
      return "Counting in";
    case "on":
      if (at.barsLeft === null) return at.turn.part === "call" ? "calls" : "answers";
      if (at.turn.part === "way")
        return at.barsLeft === 1 ? "a bar to wait" : `${numberWord(at.barsLeft)} bars to wait`;
      return at.barsLeft === 1 ? "the last bar" : `${numberWord(at.barsLeft)} bars left`;
    case "after":
      return "";
  }
}
