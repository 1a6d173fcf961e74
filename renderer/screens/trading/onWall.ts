/** The page of Trading for the wall: whose turn, bars left, and both rings; nothing else. */
import type { Play, Trading } from "../../../engine/rounds/index.ts";
import { beatsPerBar } from "../../../engine/score/index.ts";
import { barAt } from "../../../engine/trading/index.ts";
import { beatSeconds } from "../../../engine/units/index.ts";
import type { RoundOnWall } from "../round/framedRound.ts";
import { ringMarks } from "./ringMarks.ts";
import type { TradingNow } from "./tradingNow.ts";
import { barsLeftWords, hasTurn, turnWords } from "./tradingWords.ts";

const NAME = "Trading";

export function tradingOnWall(
  { stage, own }: Play<Trading>,
  now: TradingNow,
  names: readonly [string, string],
): RoundOnWall {
  const plain = (title: string): RoundOnWall => ({ title, sub: NAME, says: [] });
  if (stage === "ready") return plain("Take your sticks.");
  if (stage === "paused") return plain("Paused.");
  if (stage === "over") return plain("The round is over.");
  if (now.turns.length === 0) return plain(own.stage === "told" ? "That was it." : "Ready.");
  const { pulse, at } = now;
  return {
    title: turnWords(now, names),
    sub: now.gone?.short ?? barsLeftWords(now),
    says: [],
    sheet: {
      round: "trading",
      rings: ([0, 1] as const).map((side) => ({
        name: names[side],
        isOn: at !== null && hasTurn(at, side),
        played: [...ringMarks(now, side)],
      })),
      bar: pulse && {
        fromSeconds: barAt(pulse, 0),
        seconds: beatsPerBar(pulse.metre) * beatSeconds(pulse.tempoBpm),
        beats: beatsPerBar(pulse.metre),
      },
    },
  };
}
