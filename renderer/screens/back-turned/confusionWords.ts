/** The table of what was taken for what, in words. */
import { type ConfusionRow, surfaceName } from "../../../engine/ear/index.ts";
import type { TallyPart } from "../../out/print/sheet.ts";

export const CONFUSION_COLUMNS = ["sounded", "named rightly", "taken for"] as const;

/**
 * What a surface was taken for, the most frequent first.
 *
 * @example
 * insteadWords({ sounded: "kick", times: 3, right: 2, instead: [{ named: "floor-tom", times: 1 }] }) // => "floor tom once"
 */
export function insteadWords({ instead }: Pick<ConfusionRow, "instead">): string {
  return instead
    .map(({ named, times }) => `${named === null ? "nothing" : surfaceName(named)} ${timesWords(times)}`)
    .join(", ");
}

function timesWords(times: number): string {
  return times === 1 ? "once" : times === 2 ? "twice" : `${times} times`;
}

/** The table for paper. */
export function confusionPart(heading: string, rows: readonly ConfusionRow[]): TallyPart {
  return {
    kind: "table",
    heading,
    columns: CONFUSION_COLUMNS,
    rows: rows.map((row) => [surfaceName(row.sounded), `${row.right} of ${row.times}`, insteadWords(row)]),
  };
}
