/**
 * Question: where are the bars of a player who begins without a click?
 *
 * The pulse is heard by `engine/listening`; here its bars are laid at about the tempo that is meant, in the metre that was said or,
 * where none was, the one that is heard. The first stroke may be an upbeat: the first bar line is the first beat that is heard as
 * the one. Where what is heard is too little to go by, the first stroke is taken for the one, and that is said.
 */
import type { Heard } from "../listening/index.ts";
import { beatsPerBar, FOUR_FOUR, isCompound, type Metre } from "../score/index.ts";
import { type Bpm, beatSeconds, type Seconds } from "../units/index.ts";
import type { Pulse } from "./turnClock.ts";

export interface FirstPulse {
  /** Its first bar line is the one with which the form begins. */
  readonly pulse: Pulse;
  /** The metre was said, or is clear. */
  readonly isMetreSure: boolean;
  /** Which beat is the one was heard; else the first stroke is taken for it. */
  readonly isOneSure: boolean;
}

/** Tempos and ones that are heard with less chance than this are not gone by. Our choice, by `tests/bench/trading/firstPulse`. */
const SURE = 0.7;
/** A stroke so little before a line belongs to it. Our choice. */
const EARLY_BEATS = 1 / 4;
/** Bars of a known metre are as long as what is heard within this share. Our choice. */
const SAME_LENGTH = 0.02;

/**
 * @param first the moment of the first stroke.
 * @param how `metre`: as it was said; `null` for as it is heard. `aboutBpm`: about how fast it is meant to go, in felt beats.
 */
export function firstPulse(
  { pulse: heard, doubt }: Pick<Heard, "pulse" | "doubt">,
  first: Seconds,
  { aboutBpm, metre: said }: { readonly aboutBpm: Bpm; readonly metre: Metre | null },
): FirstPulse {
  const tempoBpm = nearestRelative(heard.tempoBpm, aboutBpm, said !== null && isCompound(said));
  const beat = beatSeconds(tempoBpm);
  const heardBar = beatsPerBar(heard.metre) * beatSeconds(heard.tempoBpm);
  const isMetreSure = said !== null || heard.confidence >= SURE;
  const metre = said ?? (isMetreSure ? metreOf(heard.metre, heardBar / beat) : null) ?? FOUR_FOUR;
  const bar = beatsPerBar(metre) * beat;
  const bars = heardBar / bar;
  const holdsBars = Math.round(bars) >= 1 && Math.abs(bars - Math.round(bars)) < SAME_LENGTH;
  const latest = heard.downbeats.at(-1);
  const isOneSure = isMetreSure && holdsBars && latest !== undefined && 1 - doubt.one - doubt.between >= SURE;
  const from = isOneSure
    ? latest - Math.floor((latest - first) / bar + EARLY_BEATS / beatsPerBar(metre)) * bar
    : first;
  return { pulse: { from, tempoBpm, metre }, isMetreSure, isOneSure };
}

/** The tempo or its double or half (where beats divide in three also its triple or third), whichever is nearest to what is meant. */
function nearestRelative(tempoBpm: Bpm, aboutBpm: Bpm, inThree: boolean): Bpm {
  const relatives = (inThree ? [1, 3, 1 / 3, 2 / 3, 3 / 2] : [1]).map((share) => {
    const related = tempoBpm * share;
    return related * 2 ** Math.round(Math.log2(aboutBpm / related));
  });
  const far = (bpm: Bpm): number => Math.abs(Math.log2(bpm / aboutBpm));
  return relatives.reduce((best, each) => (far(each) < far(best) - 1e-9 ? each : best));
}

/** The metre that is heard, told in beats of our own; `null` where no bar of whole beats is as long. */
function metreOf(heard: Metre, beats: number): Metre | null {
  if (Math.abs(beats - beatsPerBar(heard)) < SAME_LENGTH) return heard;
  const whole = Math.round(beats);
  // Two beats, or eight, are half a bar of four, or two of them.
  if (Math.abs(beats - whole) > SAME_LENGTH || whole < 2 || whole > 8) return null;
  return whole % 4 === 0 || whole === 2 ? FOUR_FOUR : { numerator: whole, denominator: 4 };
}

/** What is not clear of it, and what was done: a sentence each. */
export function firstPulseWords({ isMetreSure, isOneSure }: FirstPulse): readonly string[] {
  return [
    ...(isMetreSure
      ? []
      : ["The metre is not clear: bars of four are counted. Say it before the form, if it is another."]),
    ...(isOneSure ? [] : ["Which beat is the one is not clear: the first stroke is taken for it."]),
  ];
}
