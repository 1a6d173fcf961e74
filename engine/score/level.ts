/**
 * How far along a student is: a setting of the student, never of a round. Written music says for whom it is meant.
 */
export const LEVELS = ["first-year", "second-year", "steady", "working"] as const;
export type Level = (typeof LEVELS)[number];

const LEVEL_NAMES: Readonly<Record<Level, string>> = {
  "first-year": "first year",
  "second-year": "second year",
  steady: "steady",
  working: "working player",
};

/**
 * The level as a teacher says it.
 *
 * @example
 * levelName("working") // => "working player"
 */
export function levelName(level: Level): string {
  return LEVEL_NAMES[level];
}
