import { useMemo, useRef } from "react";
import { type Engraving, engrave, fittingSpace, type StaffToEngrave } from "../../engraving/index.ts";
import { EngravedPaths } from "./EngravedPaths.tsx";
import styles from "./Staff.module.css";
import { staffWords } from "./staffWords.ts";
import { useWidth } from "./useWidth.ts";

export interface StaffProps {
  /** Staves of each system, from the top. Keep the same list as long as it says the same. */
  readonly staves: readonly StaffToEngrave[];
  /** Said of the picture; what is written follows in words. */
  readonly label: string;
  /** Pixels between two lines: 10 when not said. */
  readonly space?: number;
  /** Where all bars shall go on one line: how far `space` may be taken down for it. */
  readonly leastSpace?: number;
  /** The bar that is played now, from 0: the only thing that changes while it is played. */
  readonly currentBar?: number | undefined;
  /** Whether tempo and swing stand over the first bar. Yes when not said. */
  readonly heading?: boolean;
  /** Bars of the same music that stand before these. None when not said. */
  readonly barsBefore?: number;
  /** Whether a bar like the one before it is a sign only. No when not said. */
  readonly simile?: boolean;
}

/** As wide as the room it is given. */
export function EngravedStaff({
  staves,
  label,
  space = 10,
  leastSpace = space,
  currentBar,
  heading = true,
  barsBefore = 0,
  simile = false,
}: StaffProps) {
  const room = useRef<HTMLDivElement>(null);
  const width = useWidth(room);
  const engraving = useMemo(() => {
    if (width === 0 || staves.length === 0) return undefined;
    const fitting =
      leastSpace < space ? fittingSpace(staves, width, { least: leastSpace, most: space }) : space;
    return engrave(staves, { width, space: fitting, heading, barsBefore, simile });
  }, [staves, width, space, leastSpace, heading, barsBefore, simile]);
  const words = useMemo(() => {
    const [first] = staves;
    return first ? `${label}. ${staffWords(first.score)}` : label;
  }, [staves, label]);
  return (
    <div ref={room}>
      {engraving && (
        <svg
          width={engraving.width}
          height={engraving.height}
          viewBox={`0 0 ${engraving.width} ${engraving.height}`}
          role="img"
          aria-label={words}
        >
          {currentBar === undefined ? null : <CurrentBar engraving={engraving} bar={currentBar} />}
          <EngravedPaths paths={engraving.paths} />
        </svg>
      )}
    </div>
  );
}

/** Pixels of tint over and under the notes. */
const ROOM = 5;

/** A tint behind the bar that is played, and a line over it, so that it is not told by colour alone. */
function CurrentBar({ engraving, bar }: { readonly engraving: Engraving; readonly bar: number }) {
  const place = engraving.bars.find(({ index }) => index === bar);
  if (!place) return null;
  const { left, notesLeft, top, height } = place;
  const width = left + place.width - notesLeft;
  return (
    <g className={styles.current} data-current-bar={bar}>
      <rect x={notesLeft} y={top - ROOM} width={width} height={height + 2 * ROOM} />
      <line x1={notesLeft} x2={notesLeft + width} y1={top - ROOM} y2={top - ROOM} />
    </g>
  );
}
