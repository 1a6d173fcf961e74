/** Music on one page: the staff, under it the ring with words beside it. A long staff has pages of its own instead. */
import type { ReactNode } from "react";
import type { Groove } from "../../../engine/score/index.ts";
import { BarRing, type PlayedMark } from "../../charts/BarRing.tsx";
import styles from "./print.module.css";
import { Caution, Paper, RING_PIXELS, RoomToWrite } from "./SheetParts.tsx";
import { SheetStaff } from "./SheetStaff.tsx";
import { SHORT_STAFF, StaffPages, staffHeight } from "./StaffPages.tsx";
import type { StaffLine } from "./staffLines.ts";

const NOT_PLAYED: readonly PlayedMark[] = [];

export interface RingSheetProps {
  /** What the ring shows. */
  readonly bars: Groove;
  readonly lines: readonly StaffLine[];
  readonly top: ReactNode;
  /** Beside the ring. */
  readonly children: ReactNode;
}

export function RingSheet({ bars, lines, top, children }: RingSheetProps) {
  if (staffHeight(lines) > SHORT_STAFF) return <StaffPages of={bars.name} lines={lines} top={top} />;
  return (
    <Paper>
      {top}
      <SheetStaff of={bars.name} lines={lines} />
      <div className={styles.beside}>
        <figure className={styles.ring}>
          <BarRing
            groove={bars}
            played={NOT_PLAYED}
            handPlace={undefined}
            size={RING_PIXELS}
            label={`Bar ring of ${bars.name}`}
          />
        </figure>
        <div>{children}</div>
      </div>
      <RoomToWrite heading="Remarks" />
      <Caution />
    </Paper>
  );
}
