import type { StaffSection } from "../../engine/score/index.ts";

/**
 * A section as it is told over its staff; `undefined` where none begins.
 *
 * @example
 * sectionWords(section) // => "Chorus, twice"
 */
export function sectionWords({ score, times }: StaffSection): string | undefined {
  if (score.section === undefined || times === 1) return score.section;
  return `${score.section}, ${times === 2 ? "twice" : `${times} times`}`;
}
