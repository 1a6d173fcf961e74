/** What is asked of the chart of rudiments, and of how much of it. */
import { z } from "zod";
import { RUDIMENT_FAMILIES, RUDIMENT_FAMILY_NAMES, RUDIMENTS } from "../../catalogue/index.ts";
import { type NamedThing, NameMatcher, RUDIMENT_NAMES } from "../../recall/index.ts";
import type { Seconds } from "../../units/index.ts";

/**
 * `names` in any order, `order` in the chart's, `families` only (for beginners); the hands `said` or chosen; the hands
 * `played` on two surfaces.
 */
export const CHART_TASKS = ["names", "order", "families", "said", "played"] as const;
export type ChartTask = (typeof CHART_TASKS)[number];

/** Whether the chart is looked at and hidden; otherwise one rudiment is asked after the other. */
export function isOfLooks(task: ChartTask): boolean {
  return task === "names" || task === "order" || task === "families";
}

export const MOST_LOOK_SECONDS: Seconds = 900;

export const chartSettingsSchema = z
  .object({
    task: z.enum(CHART_TASKS),
    /** Numbers of the chart, both included: all, or ten at a time. */
    from: z.int().min(1).max(40),
    to: z.int().min(1).max(40),
    /** The first look, and those after it. The teacher sets both. */
    longSeconds: z.number().positive().max(MOST_LOOK_SECONDS),
    shortSeconds: z.number().positive().max(MOST_LOOK_SECONDS),
    /** Of these rudiments only, by their ids: a set that was dealt. */
    these: z.array(z.string().min(1).max(60)).min(1).max(40).readonly().exactOptional(),
  })
  .readonly();
export type ChartSettings = z.infer<typeof chartSettingsSchema>;

export const FIRST_SETTINGS: ChartSettings = {
  task: "names",
  from: 1,
  to: 40,
  longSeconds: 120,
  shortSeconds: 30,
};

/** Whether both ask the same of the same part of the chart. */
export function isSamePart(
  one: Pick<ChartSettings, "task" | "from" | "to" | "these">,
  other: Pick<ChartSettings, "task" | "from" | "to" | "these">,
): boolean {
  return (
    one.task === other.task &&
    one.from === other.from &&
    one.to === other.to &&
    one.these?.join() === other.these?.join()
  );
}

const FAMILIES_NAMED: readonly NamedThing[] = RUDIMENT_FAMILIES.map((family) => ({
  id: `family/${family}`,
  names: [RUDIMENT_FAMILY_NAMES[family], `${family} rudiments`],
}));

/** What is to be named, in the chart's order. Ids of rudiments, or `family/roll`. */
export function chartList({
  task,
  from,
  to,
  these,
}: Pick<ChartSettings, "task" | "from" | "to" | "these">): readonly string[] {
  const within = RUDIMENTS.filter(
    ({ id, number }) =>
      number >= Math.min(from, to) && number <= Math.max(from, to) && (these?.includes(id) ?? true),
  );
  if (task !== "families") return within.map(({ id }) => id);
  return RUDIMENT_FAMILIES.filter((family) => within.some((rudiment) => rudiment.family === family)).map(
    (family) => `family/${family}`,
  );
}

/** What each entry of a list may be called. */
export function chartNames(task: ChartTask): readonly NamedThing[] {
  return task === "families" ? FAMILIES_NAMED : RUDIMENT_NAMES;
}

let families: NameMatcher | undefined;
let rudiments: NameMatcher | undefined;

/** Which entry is meant, however it is spelt. */
export function chartMatcher(task: ChartTask): NameMatcher {
  if (task === "families") {
    families ??= new NameMatcher(FAMILIES_NAMED);
    return families;
  }
  rudiments ??= new NameMatcher(RUDIMENT_NAMES);
  return rudiments;
}

/** An entry's usual name. */
export function chartName(id: string): string {
  return [...RUDIMENT_NAMES, ...FAMILIES_NAMED].find((thing) => thing.id === id)?.names[0] ?? id;
}
