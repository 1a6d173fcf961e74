/**
 * Question: how much later must a phrase be sounded at the far side, so that all of it has come when its time is there?
 *
 * Nobody plays at once with somebody far away. Pairs that clap together over a delay slow down more and more as it
 * grows, and below some 11.5 ms of one way not at all (Chafe, Gurevich, Leslie & Tyan, Effect of time delay on ensemble
 * accuracy, ISMA 2004); they are steadiest at the distances of a stage, and above about 66 ms it breaks down (Chafe,
 * Cáceres & Gurevich, Effect of temporal separation on synchronization in rhythmic performance, Perception 39 (2010)
 * 982–992; the two figures of regimes from memory). Some 25 ms is the limit for playing at once (Carôt & Werner 2007; from
 * memory). But who trades phrases need not play at once: turns alternate, so a phrase may be sounded half a bar or a bar
 * later, and still be answered in time. By half a bar there and half a bar back the answer stands on the bar line again;
 * by a bar it does on both sides.
 */
import type { Seconds } from "../units/index.ts";

/** One way up to this is as in one room: pairs do not slow down (Chafe et al. 2004). */
export const ROOM_SECONDS: Seconds = 0.0115;
/** One way up to this is as across a city (Chafe et al. 2010: beyond it playing at once breaks down); above, a continent. */
export const CITY_SECONDS: Seconds = 0.066;
/** Sounding strikes as they come is right while none comes later than this (Carôt & Werner 2007). */
export const AT_ONCE_SECONDS: Seconds = 0.025;
/** Strikes wait so long at most to travel together: {@link BATCH_SECONDS} of `sentHits.ts`, and as much to be unpacked. */
const HANDLING_SECONDS: Seconds = 0.04;

export type Distance = "room" | "city" | "continent";

export type Delay =
  | { readonly kind: "none" | "half-bar" | "one-bar"; readonly seconds: Seconds; readonly distance: Distance }
  /** Not even a bar is enough. `neededSeconds`: how long a bar would have to be. */
  | { readonly kind: "too-far"; readonly neededSeconds: Seconds; readonly distance: Distance };

/** Bars from the end of a phrase at the place it goes out from to the beginning of the other's: the delay there and back. */
export const WAY_BARS = { none: 0, "half-bar": 1, "one-bar": 2 } as const;

/** As in one room, across a city, or across a continent, by the time of one way. */
export function distanceOf(oneWay: Seconds): Distance {
  if (oneWay <= ROOM_SECONDS) return "room";
  return oneWay <= CITY_SECONDS ? "city" : "continent";
}

/**
 * The delay for a room, from what was measured.
 *
 * @param oneWay the usual time of one way.
 * @param worstOneWay the longest that was measured lately.
 * @param barSeconds the length of a bar.
 */
export function chooseDelay(oneWay: Seconds, worstOneWay: Seconds, barSeconds: Seconds): Delay {
  const distance = distanceOf(oneWay);
  if (distance === "room" && worstOneWay <= AT_ONCE_SECONDS) return { kind: "none", seconds: 0, distance };
  // One that is lost is asked for and sent again: the way there, and there and back once more.
  const needed = 3 * worstOneWay + HANDLING_SECONDS;
  if (distance !== "continent" && needed <= barSeconds / 2)
    return { kind: "half-bar", seconds: barSeconds / 2, distance };
  if (needed <= barSeconds) return { kind: "one-bar", seconds: barSeconds, distance };
  return { kind: "too-far", neededSeconds: needed, distance };
}
