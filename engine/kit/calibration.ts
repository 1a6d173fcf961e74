/**
 * Question: how late does a strike reach the program against the click it was meant for?
 *
 * What is late is the whole set-up (the click on its way to the ear, the pad, the module, the cable) and, when it is
 * measured by striking, the player: people strike ahead of a click (Repp, Psychonomic Bulletin & Review 12 (2005)
 * 969–992). The middle of many strikes is taken; strikes far from it are left out by the median absolute deviation.
 */
import { z } from "zod";
import { MAD_TO_SD, type Milliseconds, median, medianDeviation, type Seconds, toMs } from "../units/index.ts";

export const calibrationSchema = z
  .strictObject({
    /** Taken from the time of every strike of the set-up; negative where strikes come ahead of the click. */
    lateMs: z.number().min(-1000).max(1000),
    /** Half of the interval that holds the true figure in 95 of 100 cases; `null` where nobody measured it. */
    giveOrTakeMs: z.number().min(0).max(1000).nullable(),
    how: z.enum(["strikes", "microphone", "by-hand"]),
  })
  .readonly();

export type Calibration = z.infer<typeof calibrationSchema>;

/** A set-up that nobody has measured. */
export const UNMEASURED: Calibration = { lateMs: 0, giveOrTakeMs: null, how: "by-hand" };

/** Strikes that are asked for. With a spread of 20 ms the middle of 24 is known to ±10 ms. */
export const STRIKES_ASKED = 24;
/** Clicks to fall in with; strikes with them do not count. Our choice: one bar. */
export const CLICKS_TO_FALL_IN = 4;
/** Further from the middle, in robust standard deviations, is a slip. Our choice; Leys et al. 2013 call 3 very careful. */
const SLIP_SDS = 3;
/** With fewer left the middle means little. Our choice: half of what is asked. */
const FEWEST_STRIKES = 12;
/** Wider spreads are no playing with the click: half of a first-year player's band. Our choice. */
const WIDEST_SPREAD_MS: Milliseconds = 60;
/** Variance of the median of normal data against that of the mean, π/2, as a ratio of standard errors. */
const MEDIAN_ERROR = Math.sqrt(Math.PI / 2);
const Z_95 = 1.959964;
/** Time stamps are no finer than this, however evenly they fall: a quarter of what a MIDI message takes on the wire. Our choice. */
const FINEST_MS: Milliseconds = 0.25;

export interface Middle {
  readonly middleMs: Milliseconds;
  readonly giveOrTakeMs: Milliseconds;
  readonly spreadMs: Milliseconds;
  readonly kept: number;
  readonly slips: number;
}

/**
 * The middle of offsets, with its uncertainty; `undefined` without any.
 *
 * @example
 * middleOf([10, 12, 11, 13, 400])?.middleMs // => 11.5
 */
export function middleOf(offsetsMs: readonly Milliseconds[]): Middle | undefined {
  if (offsetsMs.length === 0) return undefined;
  const centre = median(offsetsMs);
  const reach = Math.max(SLIP_SDS * MAD_TO_SD * medianDeviation(offsetsMs), FINEST_MS);
  const kept = offsetsMs.filter((offset) => Math.abs(offset - centre) <= reach);
  const spreadMs = MAD_TO_SD * medianDeviation(kept);
  const error = (MEDIAN_ERROR * spreadMs) / Math.sqrt(kept.length);
  return {
    middleMs: median(kept),
    giveOrTakeMs: Math.max(Z_95 * error, FINEST_MS),
    spreadMs,
    kept: kept.length,
    slips: offsetsMs.length - kept.length,
  };
}

/** What came of striking with the click. */
export type StrikesMeasured =
  | { readonly kind: "measured"; readonly middle: Middle }
  | { readonly kind: "too-few"; readonly kept: number }
  | { readonly kind: "too-wide"; readonly spreadMs: Milliseconds };

/** From the offsets of strikes against their clicks. */
export function measuredByStrikes(offsetsMs: readonly Milliseconds[]): StrikesMeasured {
  const middle = middleOf(offsetsMs);
  if (!middle || middle.kept < FEWEST_STRIKES) return { kind: "too-few", kept: middle?.kept ?? 0 };
  if (middle.spreadMs > WIDEST_SPREAD_MS) return { kind: "too-wide", spreadMs: middle.spreadMs };
  return { kind: "measured", middle };
}

/** An even click: its first stroke that counts, and the time from each to the next. */
export interface EvenClick {
  readonly from: Seconds;
  readonly stepSeconds: Seconds;
}

/**
 * How late each click was answered, by the strike nearest to it. A strike belongs to the click it is nearest to; of
 * several at one click only the nearest counts, and strikes before the first click that counts do not.
 */
export function offsetsFromClick(
  strikes: readonly Seconds[],
  { from, stepSeconds }: EvenClick,
): readonly Milliseconds[] {
  const nearest = new Map<number, Milliseconds>();
  for (const strike of strikes) {
    const click = Math.round((strike - from) / stepSeconds);
    if (click < 0) continue;
    const offsetMs = toMs(strike - from - click * stepSeconds);
    const before = nearest.get(click);
    if (before === undefined || Math.abs(offsetMs) < Math.abs(before)) nearest.set(click, offsetMs);
  }
  return [...nearest].sort(([a], [b]) => a - b).map(([, offsetMs]) => offsetMs);
}

/**
 * What the microphone tells of a set-up. It hears the clicks, late by the sound's way out and by its own delay; then it
 * hears the sticks, late by its own delay, whose time stamps are late by the kit's. The difference of the two is the
 * set-up alone: neither the player nor the microphone is in it.
 *
 * @param clicksHeardMs heard minus sent, for each click.
 * @param sticksHeardMs heard minus the strike's time stamp, for each strike.
 */
export function measuredByMicrophone(
  clicksHeardMs: readonly Milliseconds[],
  sticksHeardMs: readonly Milliseconds[],
): Pick<Middle, "middleMs" | "giveOrTakeMs"> | undefined {
  const clicks = middleOf(clicksHeardMs);
  const sticks = middleOf(sticksHeardMs);
  if (!clicks || !sticks || clicks.kept < FEWEST_HEARD || sticks.kept < FEWEST_HEARD) return undefined;
  return {
    middleMs: clicks.middleMs - sticks.middleMs,
    giveOrTakeMs: Math.hypot(clicks.giveOrTakeMs, sticks.giveOrTakeMs),
  };
}

/** Sounds the microphone must have heard of each kind. A machine is steadier than a hand. Our choice. */
export const FEWEST_HEARD = 6;
