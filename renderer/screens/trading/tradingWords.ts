/** Whose turn it is and how long, in words that are read from two metres. */
import { numberWord } from "../../../engine/grading/index.ts";
import type { TradingNow } from "./tradingNow.ts";

type At = Pick<TradingNow, "at" | "turns">;

export function turnWords({ at, turns }: At, names: readonly [string, string]): string {
  if (at === null) return `${names[turns[0]?.side ?? 0]} begins.`;
  switch (at.stage) {
    case "before":
      return at.beatsLeft > 0 ? `${names[at.next.side]} in ${at.beatsLeft}` : names[at.next.side];
    case "on":
      return at.turn.part === "groove" ? "Both keep the groove." : names[at.turn.side];
    case "after":
      return "That was it.";
  }
}

export function barsLeftWords({ at }: At): string {
  if (at === null) return "The pulse is the first player's.";
  switch (at.stage) {
    case "before":
      return "Counting in";
    case "on":
      if (at.barsLeft === null) return at.turn.part === "call" ? "calls" : "answers";
      return at.barsLeft === 1 ? "the last bar" : `${numberWord(at.barsLeft)} bars left`;
    case "after":
      return "";
  }
}
