/**
 * Question: how likely has this student forgotten this item by a given day?
 *
 * Method: FSRS-6, a model of memory with two parts, stability S (days until the chance to recall is 0.9) and difficulty D
 * (1 to 10), with its published weights; computed by the package `ts-fsrs`, checked in `tests/reference/memory.test.ts`
 * against the formula as published (open-spaced-repetition, "The Algorithm"; Ye, Su & Cao, KDD 2022, for the model it
 * grew from). The weights come from reviews of flash cards. For names, signs and sounds that is what is asked here too;
 * for playing it is a stretch: there the order of the list is what counts, not the figure.
 *
 * Conventions: days are those of the calendar. A day is one review, since what is done again within the hour says little
 * about next week (Roediger & Karpicke 2006: what was studied again at once was recalled better after five minutes and
 * worse after a week). So the model's steps of minutes are off.
 */
import { FSRSAlgorithm, Rating } from "ts-fsrs";
import { z } from "zod";
import type { Outcome } from "../session/index.ts";
import { type Day, daysBetween } from "./day.ts";
import { byDay, type Result } from "./result.ts";

/**
 * Wanted chance to recall: what falls below it by the next lesson is due. Below 0.7 nearly everything a student ever knew
 * would rest, above 0.97 nearly everything would be due each week. Our choice of bounds.
 */
export const retentionSchema = z.number().min(0.7).max(0.97);

/**
 * The model's own default. Spacing wider makes each retrieval worth more and fail more often (Cepeda et al. 2006); nine
 * in ten keeps a lesson pleasant. A setting of the studio.
 */
export const USUAL_RETENTION = 0.9;

const model = new FSRSAlgorithm({ enable_short_term: false, enable_fuzz: false });

/** The model's rating of one day. `Easy` is never given: nothing that is heard tells an easy answer from a right one. */
export type DayRating = Rating.Again | Rating.Hard | Rating.Good;

/** What is remembered of one item: derived from its results, never kept. */
export interface Memory {
  /** Days until the chance to recall has fallen to 0.9. */
  readonly stabilityDays: number;
  /** 1 (easily kept) to 10. */
  readonly difficulty: number;
  /** The day it was last asked. */
  readonly lastDay: Day;
  /** Days on which it was asked. */
  readonly days: number;
  readonly lastOutcome: Outcome;
}

/**
 * The rating of one day. The first answer is the one that tells what was kept since the last time:
 * known → Good; known, and slipped later that day → Hard (it was there, not steadily); slipped or new → Again,
 * whatever came later that day, because holding it minutes later is no memory of it yet.
 *
 * @example
 * ratingOfDay(["slipped", "known"]) // => 1
 * ratingOfDay(["known", "slipped"]) // => 2
 * ratingOfDay(["known", "known"]) // => 3
 */
export function ratingOfDay(outcomes: readonly Outcome[]): DayRating {
  if (outcomes[0] !== "known") return Rating.Again;
  return outcomes.every((each) => each === "known") ? Rating.Good : Rating.Hard;
}

/** What is remembered of an item after its results; `null` after none. The results may come in any order. */
export function memoryOf(results: readonly Result[]): Memory | null {
  let memory: Memory | null = null;
  for (const [day, ofDay] of byDay(results)) {
    const outcomes = ofDay.map(({ outcome }) => outcome);
    memory = afterDay(memory, day, outcomes);
  }
  return memory;
}

function afterDay(before: Memory | null, day: Day, outcomes: readonly Outcome[]): Memory {
  const known = before && { stability: before.stabilityDays, difficulty: before.difficulty };
  const elapsed = before ? daysBetween(before.lastDay, day) : 0;
  const after = model.next_state(known, elapsed, ratingOfDay(outcomes));
  return {
    stabilityDays: after.stability,
    difficulty: after.difficulty,
    lastDay: day,
    days: (before?.days ?? 0) + 1,
    lastOutcome: outcomes.at(-1) ?? "new",
  };
}

/**
 * The chance that it is forgotten on a day, 0 to 1: one less the model's chance to recall. 0 on the day it was last asked,
 * and before.
 */
export function chanceForgotten(memory: Pick<Memory, "stabilityDays" | "lastDay">, on: Day): number {
  const days = Math.max(0, daysBetween(memory.lastDay, on));
  return 1 - model.forgetting_curve(days, memory.stabilityDays);
}

/**
 * Days from when it was last asked until the chance to recall falls to what is wanted: the model's interval, unrounded.
 *
 * @param retention wanted chance to recall, above 0, at most 1.
 */
export function daysHeld(memory: Pick<Memory, "stabilityDays">, retention = USUAL_RETENTION): number {
  const { w } = model.parameters;
  const decay = -(w[20] ?? Number.NaN);
  const factor = 0.9 ** (1 / decay) - 1;
  return (memory.stabilityDays * (retention ** (1 / decay) - 1)) / factor;
}

const CHANCE_WORDS: readonly (readonly [number, string])[] = [
  [0.05, "hardly likely"],
  [0.1, "one in ten"],
  [0.2, "one in five"],
  [0.25, "one in four"],
  [1 / 3, "one in three"],
  [0.5, "about one in two"],
  [2 / 3, "two in three"],
  [0.75, "three in four"],
  [0.9, "nine in ten"],
];

/**
 * A chance as it is said: the nearest of the usual ways to say one. More would be more than the model knows.
 *
 * @example
 * chanceWords(0.31) // => "one in three"
 */
export function chanceWords(chance: number): string {
  return CHANCE_WORDS.reduce((nearest, each) =>
    Math.abs(each[0] - chance) < Math.abs(nearest[0] - chance) ? each : nearest,
  )[1];
}
