/**
 * How a click goes: its metre, which beats stand out, how finely it divides them, where it falls silent, and the
 * moments of its strokes. Moments are counted from the first beat that counts and never added up, so that a click
 * of half an hour ends where it should.
 */
import { z } from "zod";
import {
  add,
  type Bpm,
  beatSeconds,
  type Fraction,
  fraction,
  type Seconds,
  toNumber,
} from "../units/index.ts";
import { clickGapsSchema, soundingBars } from "./clickGaps.ts";
import { groupStarts, usualGrouping } from "./grouping.ts";
import { beatsPerBar, type Metre } from "./metre.ts";

/** As many as a bar on the Shelf may have. */
const MOST_BEATS = 99;
/** The finest note value a Standard MIDI File is read with. */
const MOST_DENOMINATOR = 1024;

const metreSchema = z.strictObject({
  numerator: z.int().min(1).max(MOST_BEATS),
  denominator: z
    .int()
    .min(1)
    .max(MOST_DENOMINATOR)
    .refine((value) => Number.isInteger(Math.log2(value)), "a note value is a power of two"),
});

export const clickWaySchema = z
  .strictObject({
    metre: metreSchema.readonly(),
    /** Beats of the bar that stand out, counted from 1. */
    accents: z.array(z.int().min(1).max(MOST_BEATS)).readonly(),
    /** Strokes to a felt beat; `accents`: only the beats that stand out are heard. */
    every: z.literal(["accents", 1, 2, 3, 4]),
    gaps: clickGapsSchema,
  })
  .readonly();

/** How a click goes, whatever its tempo. */
export type ClickWay = z.infer<typeof clickWaySchema>;

/**
 * The click as it is usually set: every beat, the one standing out, or the first of each group where the metre is odd.
 *
 * @example
 * plainClick({ numerator: 7, denominator: 8 }).accents // => [1, 3, 5]
 */
export function plainClick(metre: Metre): ClickWay {
  return {
    metre,
    accents: groupStarts(usualGrouping(metre)),
    every: 1,
    gaps: { kind: "none" },
  };
}

/** A click that is played. It has what listening needs of a click: its tempo and its first beat. */
export interface PlayedClick {
  readonly way: ClickWay;
  /** Felt beats a minute. */
  readonly tempoBpm: Bpm;
  /** The first beat that counts, after any count-in; session clock. */
  readonly from: Seconds;
  /** Bars counted before it. They always sound, beat by beat. */
  readonly countInBars: number;
}

/** Whether a click is known as it is played, not by its tempo and first beat alone. */
export function isPlayedClick(click: Pick<PlayedClick, "tempoBpm" | "from">): click is PlayedClick {
  return "way" in click;
}

/** How much a stroke of the click stands out. */
export type ClickWeight = "accent" | "beat" | "between";

export interface ClickStroke {
  readonly time: Seconds;
  /** Felt beats from the first beat that counts; negative in the count-in. */
  readonly beat: Fraction;
  readonly weight: ClickWeight;
}

/**
 * The strokes of a click in order, without end.
 *
 * @example
 * clickStrokes({ way: plainClick(FOUR_FOUR), tempoBpm: 120, from: 10, countInBars: 1 }).next().value.time // => 8
 */
export function* clickStrokes(click: PlayedClick): Generator<ClickStroke, never> {
  const { way, countInBars } = click;
  const counted: ClickWay = { ...way, every: 1, accents: [1] };
  for (let bar = -countInBars; bar < 0; bar += 1) yield* strokesOfBar(counted, click, bar);
  const sounding = soundingBars(way.gaps);
  for (let bar = 0; ; bar += 1) {
    if (sounding.next().value) yield* strokesOfBar(way, click, bar);
  }
}

function* strokesOfBar(way: ClickWay, click: PlayedClick, bar: number): Generator<ClickStroke> {
  const beats = beatsPerBar(way.metre);
  const parts = way.every === "accents" ? 1 : way.every;
  for (let at = 0; at < beats; at += 1) {
    const isAccent = way.accents.includes(at + 1);
    for (let part = 0; part < parts; part += 1) {
      if (way.every === "accents" && !isAccent) continue;
      const beat = add(fraction(bar * beats + at), fraction(part, parts));
      const weight = part > 0 ? "between" : isAccent ? "accent" : "beat";
      yield { time: click.from + toNumber(beat) * beatSeconds(click.tempoBpm), beat, weight };
    }
  }
}

/** A stretch of bars in which the click is silent. */
export interface ClickSilence {
  /** Its first bar, counted from 1 at the first beat that counts. */
  readonly bar: number;
  readonly bars: number;
  /** Where it begins and where the click returns, in seconds from the first beat that counts. */
  readonly from: Seconds;
  readonly to: Seconds;
}

/**
 * The silences of a click from which it has returned by `until`.
 *
 * @param until seconds from the first beat that counts.
 */
export function clickSilences(
  { way, tempoBpm }: Pick<PlayedClick, "way" | "tempoBpm">,
  until: Seconds,
): readonly ClickSilence[] {
  const barSeconds = beatsPerBar(way.metre) * beatSeconds(tempoBpm);
  const silences: ClickSilence[] = [];
  if (way.gaps.kind === "none") return silences;
  let begun: number | undefined;
  let bar = 0;
  for (const sounds of soundingBars(way.gaps)) {
    if (bar * barSeconds > until) break;
    if (!sounds) begun ??= bar;
    else if (begun !== undefined) {
      silences.push({ bar: begun + 1, bars: bar - begun, from: begun * barSeconds, to: bar * barSeconds });
      begun = undefined;
    }
    bar += 1;
  }
  return silences;
}
