/** The rounds a lesson can hold, by the names of their pages. */
export const ROUND_KINDS = [
  "call-a-style",
  "spotting",
  "say-and-strike",
  "back-turned",
  "wall-chart",
  "card-table",
  "trading",
] as const;
export type RoundKind = (typeof ROUND_KINDS)[number];
