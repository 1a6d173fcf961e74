/** What keeps the time while a form is on: a click, or a soft time-keeper, with a bar before the first one. */
import type { TimeKept } from "../../../engine/rounds/index.ts";
import { beatsPerBar, plainClick } from "../../../engine/score/index.ts";
import { type Pulse, timeKeeperBar } from "../../../engine/trading/index.ts";
import { beatSeconds, type Seconds } from "../../../engine/units/index.ts";
import type { TradingPlace } from "./tradingPlace.ts";

/** The bar that is counted before the first one. */
export function countedSeconds({ metre, tempoBpm }: Pick<Pulse, "metre" | "tempoBpm">): Seconds {
  return beatsPerBar(metre) * beatSeconds(tempoBpm);
}

/** Sounds it from a bar before the pulse begins. Returns the way to stop. */
export function keepTime(sound: TradingPlace["sound"], time: TimeKept, pulse: Pulse): () => void {
  const { from, tempoBpm, metre } = pulse;
  switch (time) {
    case "click":
      void sound.startClick({ way: plainClick(metre), tempoBpm, from, countInBars: 1 });
      return () => sound.stopClick();
    case "time-keeper": {
      const bar = timeKeeperBar(pulse).map((stroke) => ({ ...stroke, zone: "whole" as const }));
      const counted = countedSeconds(pulse);
      const playing = sound.playStrokes(bar, { from: from - counted, loopSeconds: counted });
      return () => playing.stop();
    }
    case "first-player":
      return () => {};
  }
}
