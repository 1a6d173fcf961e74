/** How long memory takes to think, for a student of many years. Targets: the page's 200 ms, of which this is a part. */
import { describe, expect, test } from "vitest";
import { STYLES } from "../../engine/catalogue/index.ts";
import {
  daysAfter,
  dealRounds,
  type ItemId,
  nextTimeList,
  progressBySkill,
  type Result,
} from "../../engine/memory/index.ts";
import { OUTCOMES, ROUND_KINDS } from "../../engine/session/index.ts";
import { seededChance } from "../../engine/units/index.ts";
import { result } from "../engine/memory/results.ts";

const LESSONS = 500;
const RESULTS_A_LESSON = 20;
const KINDS = ["style", "style-name", "fill-name", "sticking", "rudiment", "symbol"] as const;

/** Ten years of weekly lessons: 10,000 results about some 300 items. */
function tenYears(): readonly Result[] {
  const chance = seededChance(6);
  const pick = <Value>(of: readonly Value[]): Value => {
    const value = of[Math.floor(chance() * of.length)];
    if (value === undefined) throw new Error("Nothing to pick from.");
    return value;
  };
  return Array.from({ length: LESSONS * RESULTS_A_LESSON }, (_, at) => {
    const lesson = Math.floor(at / RESULTS_A_LESSON);
    const item: ItemId = `${pick(KINDS)}:${pick(STYLES).id}`;
    return result(item, pick(OUTCOMES), daysAfter("2016-01-04", 7 * lesson), at % RESULTS_A_LESSON);
  });
}

/** The middle of five runs, in milliseconds of the processor's own time. */
function middleMs(work: () => void): number {
  const times = Array.from({ length: 5 }, () => {
    const before = process.cpuUsage();
    work();
    const { user, system } = process.cpuUsage(before);
    return (user + system) / 1000;
  });
  return times.sort((a, b) => a - b)[2] ?? Number.NaN;
}

describe("ten years of one student, 10,000 results", () => {
  const results = tenYears();
  const lessonDay = daysAfter("2016-01-04", 7 * LESSONS);
  const list = nextTimeList({ results, lessonDay });

  test.each([
    ["the list for the next lesson", 100, () => nextTimeList({ results, lessonDay })],
    ["progress over the months, by skill", 60, () => progressBySkill(results)],
    [
      "a deal for five minutes",
      10,
      () => dealRounds({ list, minutesLeft: 5, rounds: ROUND_KINDS, chance: seededChance(1) }),
    ],
  ])("%s takes less than %i ms", (name, most, work) => {
    const took = middleMs(work);
    console.log(`memory: ${name}: ${took.toFixed(1)} ms`);
    expect(list.refresh.length + list.new.length).toBeGreaterThan(100);
    expect(took).toBeLessThan(most);
  });
});
