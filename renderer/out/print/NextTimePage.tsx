/** What is to be done until the next lesson, to tick off: nothing on it is a mark, and no chance is printed. */
import styles from "./print.module.css";
import { Caution, Paper, RoomToWrite, SheetTop } from "./SheetParts.tsx";
import type { ListLine, SheetHead } from "./sheet.ts";

export function NextTimePage({
  lessonDay,
  refresh,
  fresh,
  head,
}: {
  readonly lessonDay: string;
  readonly refresh: readonly ListLine[];
  readonly fresh: readonly ListLine[];
  readonly head: SheetHead;
}) {
  return (
    <Paper>
      <SheetTop head={head} kind="Next Time" title={`For ${lessonDay}`}>
        A few minutes a day keep more than one long evening.
      </SheetTop>
      <div className={styles.work}>
        <Lines heading="Refresh" lines={refresh} none="Nothing is fading." />
        <Lines heading="New" lines={fresh} none="Nothing new this time." />
      </div>
      <RoomToWrite heading="What I noticed" />
      <Caution />
    </Paper>
  );
}

function Lines({
  heading,
  lines,
  none,
}: {
  readonly heading: string;
  readonly lines: readonly ListLine[];
  readonly none: string;
}) {
  return (
    <section>
      <h2>{heading}</h2>
      {lines.length === 0 ? (
        <p>{none}</p>
      ) : (
        <ul className={styles.ticks}>
          {lines.map(({ key, name, remark }) => (
            <li key={key} className={styles.tick}>
              <span>
                {name}
                {remark !== "" && <small>{remark}</small>}
              </span>
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}
