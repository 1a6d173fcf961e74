/** A staff that needs the room of whole pages: it goes on from one to the next between two of its lines. */
import { Fragment, type ReactNode } from "react";
import styles from "./print.module.css";
import { Caution, Paper, RoomToWrite } from "./SheetParts.tsx";
import { SheetStaff } from "./SheetStaff.tsx";
import { heightOf, pagesOf, type StaffLine } from "./staffLines.ts";

/**
 * CSS pixels for the staff on the smaller of both papers, which is Letter: 255 mm between its margins, on which the staff
 * is drawn 3 % larger; less the title and its lines on the first page, the line at the head of the others, and the caution.
 */
const ROOM = { first: 724, later: 850 } as const;
/** Less than this is not worth ruling. */
const LEAST_TO_WRITE = 130;

/** Up to here a staff leaves room for ring and words on the same page. */
export const SHORT_STAFF = 380;

export function staffHeight(lines: readonly StaffLine[]): number {
  return lines.reduce((sum, line) => sum + heightOf(line), 0);
}

export interface StaffPagesProps {
  /** "River road" */
  readonly of: string;
  readonly lines: readonly StaffLine[];
  /** What stands over the staff on the first page; left out where these pages follow another. */
  readonly top?: ReactNode;
  /** Pages before these. */
  readonly pagesBefore?: number;
}

export function StaffPages({ of, lines, top, pagesBefore = 0 }: StaffPagesProps) {
  const room = top === undefined ? { first: ROOM.later, later: ROOM.later } : ROOM;
  const pages = pagesOf(lines, room);
  const count = pagesBefore + pages.length;
  return pages.map((page, at) => {
    const number = pagesBefore + at + 1;
    const isLast = at === pages.length - 1;
    const left = (at === 0 ? room.first : room.later) - staffHeight(page);
    return (
      <Paper key={number}>
        {at === 0 && top !== undefined ? (
          top
        ) : (
          <p className={styles.goesOn}>
            <span>{of}</span>
            <span>{`page ${number} of ${count}`}</span>
          </p>
        )}
        <SheetStaff of={number === 1 ? of : `${of}, page ${number},`} lines={page} />
        {isLast && (
          <Fragment>
            {left >= LEAST_TO_WRITE && <RoomToWrite heading="Remarks" />}
            <Caution />
          </Fragment>
        )}
      </Paper>
    );
  });
}
