/** What happened while the click was silent, as a section of the report. */
import { type GapDrift, gapDriftsWords, gapDriftWords } from "../../../../engine/grading/index.ts";
import { formatMs, formatSpread } from "../../../charts/index.ts";
import { MOST_PLACES, type MoreSection } from "./moreSections.ts";

/**
 * None where the click never fell silent, or had not come back before the player stopped.
 *
 * @param drifts of the judgement.
 */
export function silenceSection(drifts: readonly GapDrift[]): readonly MoreSection[] {
  const summary = gapDriftsWords(drifts);
  if (summary === null) return [];
  const [only] = drifts;
  return [
    {
      heading: "While the click was silent",
      sentences: drifts.length === 1 && only ? [gapDriftWords(only)] : [summary, ...furthest(drifts)],
      table: {
        columns: ["silent", "at the return", "give or take"],
        rows: drifts
          .slice(0, MOST_PLACES)
          .map(({ bar, bars, movedMs, giveOrTakeMs }) => [
            bars === 1 ? `bar ${bar}` : `bars ${bar} to ${bar + bars - 1}`,
            movedMs === null ? "not told" : formatMs(movedMs, 0),
            giveOrTakeMs === null ? "not told" : formatSpread(giveOrTakeMs),
          ]),
      },
    },
  ];
}

/** The silence the player came furthest from the click in, in words. */
function furthest(drifts: readonly GapDrift[]): readonly string[] {
  const told = drifts.filter(({ movedMs }) => movedMs !== null);
  const [first, ...others] = told;
  if (!first) return [];
  const most = others.reduce(
    (best, next) => (Math.abs(next.movedMs ?? 0) > Math.abs(best.movedMs ?? 0) ? next : best),
    first,
  );
  return [gapDriftWords(most)];
}
