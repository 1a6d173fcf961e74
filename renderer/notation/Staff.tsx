/**
 * A drum-set staff. The engraver comes with the first staff, not with the first screen: until then its place is kept.
 */
import { lazy, Suspense } from "react";
import type { StaffProps } from "./EngravedStaff.tsx";
import styles from "./Staff.module.css";

const EngravedStaff = lazy(async () => ({ default: (await import("./EngravedStaff.tsx")).EngravedStaff }));

export type { StaffProps } from "./EngravedStaff.tsx";

/** Spaces that one system of one staff takes, about: with stems, and signs above and below. */
const SPACES_OF_A_STAFF = 9;

export function Staff(props: StaffProps) {
  const minHeight = (props.space ?? 10) * SPACES_OF_A_STAFF * props.staves.length;
  return (
    <div className={styles.staff} style={{ minHeight }}>
      <Suspense>
        <EngravedStaff {...props} />
      </Suspense>
    </div>
  );
}
