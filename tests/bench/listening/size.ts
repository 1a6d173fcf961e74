/** Full size takes minutes and is for measuring; the small one runs with every test and guards what was measured. */
export const FULL = process.env.THRONESIDE_BENCH === "full";

/** The number for this size. */
export function sized(full: number, small: number): number {
  return FULL ? full : small;
}
