import { useMemo } from "react";
import { type Rudiment, rudimentById, rudimentGroove, stickingOf } from "../../../engine/catalogue/index.ts";
import { writeStaff } from "../../../engine/score/index.ts";
import type { StaffToEngrave } from "../../../engraving/index.ts";
import { EngravedStaff } from "../../notation/EngravedStaff.tsx";
import styles from "./ChartOfRudiments.module.css";

/** Where the hands stand: under their notes, large; in a line of type under the staff; or nowhere. */
export type HandsShown = "under-notes" | "in-a-line" | "not";

/** Rudiments as they hang on the wall: number, name, and how they are written, in columns that are read across. */
export function ChartOfRudiments({
  entries,
  space,
  hands,
}: {
  readonly entries: readonly string[];
  /** Pixels between two lines of a staff. */
  readonly space: number;
  /** The letters under small notes would be too small to be read. */
  readonly hands: HandsShown;
}) {
  return (
    <ol className={styles.chart}>
      {entries.map((id) => (
        <OneRudiment key={id} id={id} space={space} hands={hands} />
      ))}
    </ol>
  );
}

function OneRudiment({
  id,
  space,
  hands,
}: {
  readonly id: string;
  readonly space: number;
  readonly hands: HandsShown;
}) {
  const rudiment = rudimentById(id);
  const withHands = hands === "under-notes";
  const staves = useMemo(() => (rudiment ? stavesOf(rudiment, withHands) : []), [rudiment, withHands]);
  if (!rudiment) return null;
  const sticking = stickingOf(rudiment);
  return (
    <li className={styles.rudiment}>
      <p className={styles.name}>
        <b>{rudiment.number}</b> {rudiment.name}
      </p>
      <EngravedStaff
        staves={staves}
        label={`${rudiment.name}: ${sticking}`}
        space={space}
        leastSpace={Math.min(space, LEAST_SPACE)}
        heading={false}
      />
      {hands === "in-a-line" && <p className={styles.hands}>{sticking}</p>}
    </li>
  );
}

function stavesOf(rudiment: Rudiment, withHands: boolean): readonly StaffToEngrave[] {
  const groove = rudimentGroove(rudiment);
  const notes = withHands ? groove.notes : groove.notes.map(({ hand: _, ...note }) => note);
  return [{ score: writeStaff({ ...groove, notes }, { repeated: true }) }];
}

/** Smaller, and a note cannot be told from a grace note. */
const LEAST_SPACE = 4.25;
