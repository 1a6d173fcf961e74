/** Players who are not there: which side they have, what they are called, and how their strokes come in at a kit. */
import { type KitMap, noteFor } from "../../../engine/kit/index.ts";
import type { KitsUsed } from "../../../engine/rounds/index.ts";
import type { Character, PhraseHit, Side } from "../../../engine/trading/index.ts";
import type { Seconds } from "../../../engine/units/index.ts";
import type { Playing } from "../../audio/strokePlayer.ts";
import type { KitTraded, TradingPlace } from "./tradingPlace.ts";

export const PLAYER_NAMES: Readonly<Record<Character, string>> = {
  early: "The early one",
  sparse: "The sparse one",
};

const DRUM_CHANNEL = 9;

/** Which player, who is not there, has this side; `null` where somebody sits there. */
export function characterOf(kits: KitsUsed, side: Side): Character | null {
  if (kits === "demonstration") return side === 0 ? "early" : "sparse";
  return kits === "with-player" && side === 1 ? "sparse" : null;
}

/**
 * Sounds a phrase ahead of time, and lets each stroke come in at its kit when it is due.
 *
 * @param from the moment of the turn's first beat.
 * @param at does something at a moment.
 */
export function playAt(
  kit: KitTraded,
  phrase: readonly PhraseHit[],
  from: Seconds,
  {
    sound,
    at,
  }: { readonly sound: TradingPlace["sound"]; readonly at: (moment: Seconds, act: () => void) => void },
): Playing {
  for (const stroke of phrase)
    at(stroke.time, () => {
      const message = messageOf(stroke, kit.kitMap.get().map);
      if (message) kit.receive([{ time: stroke.time, message }], "demonstration");
    });
  return sound.playStrokes(
    phrase.map((stroke) => ({ ...stroke, zone: "whole" as const, time: stroke.time - from })),
    { from },
  );
}

function messageOf({ voice, velocity }: PhraseHit, map: KitMap) {
  const note = noteFor(map, voice);
  if (note === undefined) return undefined;
  const strength = Math.min(127, Math.max(1, Math.round(velocity * 127)));
  return { kind: "note-on" as const, channel: DRUM_CHANNEL, note, velocity: strength };
}
