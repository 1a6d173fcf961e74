import { useMemo, useState } from "react";
import type { Hit } from "../../engine/kit/index.ts";
import { type Heard, quantise } from "../../engine/listening/index.ts";
import { beatsPerBar, writeStaff } from "../../engine/score/index.ts";
import { fraction, subtract, toNumber } from "../../engine/units/index.ts";
import type { StaffToEngrave } from "../../engraving/index.ts";
import { BarPager, barsName } from "./BarPager.tsx";
import { Staff } from "./Staff.tsx";

export interface HeardStaffProps {
  readonly hits: readonly Hit[];
  readonly hearing: Heard;
  /** Pixels between two lines. */
  readonly space?: number;
}

/** Bars shown at once. */
const BARS = 4;

/** A take that is compared with nothing, written down as it was heard: four bars at a time. */
export function HeardStaff({ hits, hearing, space = 9 }: HeardStaffProps) {
  const taken = useMemo(() => quantise(hits, hearing), [hits, hearing]);
  const [page, setPage] = useState(0);
  const from = page * BARS;
  const count = Math.min(BARS, taken.bars - from);
  const staves = useMemo((): readonly StaffToEngrave[] => {
    const inBar = beatsPerBar(taken.metre);
    const notes = taken.notes.flatMap((note) => {
      const bar = Math.floor(toNumber(note.position) / inBar);
      const position = subtract(note.position, fraction(from * inBar));
      return bar >= from && bar < from + count ? [{ ...note, position }] : [];
    });
    return [{ score: writeStaff({ metre: taken.metre, feel: taken.feel, bars: count, notes }) }];
  }, [taken, from, count]);
  if (taken.bars === 0) return null;
  const name = barsName(from + 1, count);
  return (
    <div>
      <BarPager
        name={name}
        ofBars={taken.bars}
        page={page}
        pages={Math.ceil(taken.bars / BARS)}
        onPage={setPage}
      />
      <Staff staves={staves} label={`${name} as heard`} space={space} heading={taken.feel.kind === "swung"} />
    </div>
  );
}
