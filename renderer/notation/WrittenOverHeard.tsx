import { useMemo, useState } from "react";
import type { Report } from "../../engine/grading/index.ts";
import { type Groove, writeStaff } from "../../engine/score/index.ts";
import type { StaffToEngrave } from "../../engraving/index.ts";
import { BarPager, barsName } from "./BarPager.tsx";
import { DifferenceKey } from "./DifferenceKey.tsx";
import { heardRounds, mostTelling } from "./heardStaff.ts";
import { Staff } from "./Staff.tsx";

export interface WrittenOverHeardProps {
  readonly report: Report;
  readonly groove: Groove;
  /** Pixels between two lines. */
  readonly space?: number;
}

/** One round of the groove, written over heard: first the one with the most that differs, then whichever is chosen. */
export function WrittenOverHeard({ report, groove, space = 9 }: WrittenOverHeardProps) {
  const rounds = useMemo(() => heardRounds(report, groove, report.band.halfBandMs), [report, groove]);
  const [chosen, setChosen] = useState<number>();
  const round = chosen === undefined ? mostTelling(rounds) : rounds[chosen];
  const staves = useMemo((): readonly StaffToEngrave[] => {
    if (!round) return [];
    const { metre, feel, bars, notes } = groove;
    return [
      { score: writeStaff({ metre, feel, bars, notes }), label: "written" },
      { score: writeStaff(round.source), label: "heard", differences: round.differences },
    ];
  }, [groove, round]);
  if (!round) return null;
  const bars = groove.bars;
  const name = barsName(round.round * bars + 1, bars);
  const kinds = [...new Set([...round.differences.values()].map(({ kind }) => kind))];
  return (
    <div>
      <BarPager
        name={name}
        ofBars={rounds.length * bars}
        page={round.round}
        pages={rounds.length}
        onPage={setChosen}
        {...(chosen === undefined && kinds.length > 0 ? { remark: "where most differs" } : {})}
      />
      <Staff
        staves={staves}
        label={`${name}, written over heard: ${differenceWords(kinds.length, round.differences.size)}`}
        space={space}
        heading={groove.feel.kind === "swung"}
      />
      <DifferenceKey kinds={kinds} />
    </div>
  );
}

function differenceWords(kinds: number, count: number): string {
  if (kinds === 0) return "nothing differs";
  return count === 1 ? "one stroke differs" : `${count} strokes differ`;
}
