/**
 * A form that is traded with another place: when it begins here and there, and how long what is played is on its way. Nobody plays
 * at once with somebody far away: a call is sounded there half a bar or a bar later, in time, and so is the answer here.
 */
import { type Delay, type MessageOf, WAY_BARS } from "../../../engine/rooms/index.ts";
import { metreSaid, type TradingSet } from "../../../engine/rounds/index.ts";
import { beatsPerBar, FOUR_FOUR } from "../../../engine/score/index.ts";
import type { Way } from "../../../engine/trading/index.ts";
import type { Seconds } from "../../../engine/units/index.ts";
import { countedSeconds } from "./timeKept.ts";
import type { FarPlace } from "./tradingPlace.ts";

/** From the press to the first beat that is counted: the other place has to be told before. Our choice. */
const FAR_LEAD_SECONDS: Seconds = 2;

export type FarBeginning =
  | { readonly kind: "begins"; readonly said: Omit<MessageOf<"form">, "kind" | "from"> }
  | { readonly kind: "trouble"; readonly sentence: string };

/** What is told to the other place when a form begins here; or why it cannot. `calls`: whether who sits here calls. */
export function farFormFrom(
  far: FarPlace | undefined,
  { set, calls }: { readonly set: TradingSet; readonly calls: boolean },
  now: Seconds,
): FarBeginning {
  const trouble = (sentence: string): FarBeginning => ({ kind: "trouble", sentence });
  const partner = far?.partner;
  if (!partner)
    return trouble("Nobody far away is here yet. Join a room in Kit, A kit far away, both of you.");
  if (set.time === "first-player")
    return trouble("Far apart each place keeps the time for itself: choose a click or a soft time-keeper.");
  const bar = barSeconds(set);
  const delay = far?.delayFor(bar) ?? null;
  if (!delay)
    return trouble(
      `The clock of ${partner.shownName} has not answered yet. Wait a moment, then begin again.`,
    );
  if (delay.kind === "too-far") return trouble(tooFarWords(set, delay));
  return {
    kind: "begins",
    said: {
      // Both at once is what cannot be had.
      set: { ...set, groove: false },
      calls,
      beginsAt: now + FAR_LEAD_SECONDS + bar,
      delaySeconds: delay.seconds,
    },
  };
}

/** What goes out from here is answered so many bars later. */
export function wayOf({
  set,
  calls,
  delaySeconds,
}: Pick<MessageOf<"form">, "set" | "calls" | "delaySeconds">): Way {
  const shares = delaySeconds / barSeconds(set);
  const kind = shares < 0.25 ? "none" : shares < 0.75 ? "half-bar" : "one-bar";
  return { bars: WAY_BARS[kind], after: calls ? "call" : "answer" };
}

function barSeconds(set: TradingSet): Seconds {
  return countedSeconds({ metre: metreSaid(set) ?? FOUR_FOUR, tempoBpm: set.tempoBpm });
}

function tooFarWords(set: TradingSet, { neededSeconds }: Extract<Delay, { kind: "too-far" }>): string {
  const beats = beatsPerBar(metreSaid(set) ?? FOUR_FOUR);
  const slowest = Math.floor((60 * beats) / neededSeconds);
  return `It is too far for bars of ${barSeconds(set).toFixed(1)} s: not all would have come in time. Choose ${slowest} beats a minute or fewer.`;
}
