import {
  agoWords,
  chanceWords,
  daysBetween,
  itemName,
  type ListEntry,
} from "../../../engine/memory/index.ts";
import type { Student } from "../../../engine/records/index.ts";
import styles from "./Desk.module.css";
import { fromWords } from "./deskWords.ts";
import type { Due } from "./due.ts";

/** More than this is for the page Next Time. Our choice: what the desk has room for. */
const MOST_ROWS = 6;

/** What is due for one student, in short. */
export function Fading({
  student,
  due,
  today,
}: {
  readonly student: Student;
  readonly due: Due | undefined;
  readonly today: string;
}) {
  if (!due) return null;
  const rows = [...due.list.refresh, ...due.list.new];
  return (
    <section className={styles.part}>
      <h2>Due for {student.nickname}</h2>
      {rows.length === 0 ? (
        <p className={styles.soft}>
          {due.goesWell.length === 0
            ? "Nothing yet: what is played begins the list."
            : "Nothing: all that was held is likely held still."}
        </p>
      ) : (
        <table>
          <thead>
            <tr>
              <th scope="col">what</th>
              <th scope="col">last held</th>
              <th scope="col">chance it is gone</th>
              <th scope="col">from</th>
            </tr>
          </thead>
          <tbody>
            {rows.slice(0, MOST_ROWS).map((entry) => (
              <Row key={entry.item} entry={entry} due={due} today={today} />
            ))}
          </tbody>
        </table>
      )}
      {rows.length > MOST_ROWS && <p className={styles.soft}>And {rows.length - MOST_ROWS} more.</p>}
    </section>
  );
}

function Row({
  entry,
  due,
  today,
}: {
  readonly entry: ListEntry;
  readonly due: Due;
  readonly today: string;
}) {
  const { name, aspect } = itemName(entry.item, due.ownNames);
  const held = entry.evidence?.lastKnownDay ?? null;
  return (
    <tr>
      <th scope="row">
        <b>{entry.words ?? name}</b>
        {aspect !== "" && `, ${aspect}`}
      </th>
      <td>{held === null ? "not yet" : agoWords(daysBetween(held, today))}</td>
      <td>{entry.chanceForgotten === null ? "new" : chanceWords(entry.chanceForgotten)}</td>
      <td>{fromWords(entry)}</td>
    </tr>
  );
}
