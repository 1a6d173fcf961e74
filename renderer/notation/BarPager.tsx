import { Button } from "../theme/index.ts";
import styles from "./Staff.module.css";

export interface BarPagerProps {
  /** The bars that are shown, as said by {@link barsName}. */
  readonly name: string;
  /** Bars of the whole take. */
  readonly ofBars: number;
  /** The page that is shown, and how many there are; from 0. */
  readonly page: number;
  readonly pages: number;
  readonly onPage: (page: number) => void;
  /** Why these bars. */
  readonly remark?: string;
}

/** Which bars of a take are shown, and on to others. */
export function BarPager({ name, ofBars, page, pages, onPage, remark }: BarPagerProps) {
  return (
    <p className={styles.round}>
      <Button isDisabled={page === 0} onPress={() => onPage(page - 1)} aria-label="The bars before">
        ‹
      </Button>
      <span role="status">
        {name} of {ofBars}
        {remark === undefined ? "" : `, ${remark}`}
      </span>
      <Button isDisabled={page >= pages - 1} onPress={() => onPage(page + 1)} aria-label="The bars after">
        ›
      </Button>
    </p>
  );
}

/** "Bar 3", "Bars 3 to 4". */
export function barsName(first: number, bars: number): string {
  return bars === 1 ? `Bar ${first}` : `Bars ${first} to ${first + bars - 1}`;
}
