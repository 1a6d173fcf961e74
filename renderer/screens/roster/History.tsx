import { useEffect, useState } from "react";
import {
  byItem,
  type Day,
  evidenceOf,
  evidenceWords,
  itemName,
  type OwnNames,
} from "../../../engine/memory/index.ts";
import type { LessonRecord, StoredTake, Student } from "../../../engine/records/index.ts";
import { localTime } from "../../../engine/session/index.ts";
import { hrefOf } from "../../app/route.ts";
import { useStudio } from "../../app/StudioContext.tsx";
import { dayInWords } from "../../out/print/dayWords.ts";
import { lessonsOfStudent, storeErrorOf, takesOfStudent } from "../../store/index.ts";
import { minutesWords } from "../desk/deskWords.ts";
import { useNow } from "../desk/useDesk.ts";
import { inStudio, type StudentEvidence } from "../next-time/nextTimePlace.ts";
import styles from "./Roster.module.css";

/** More are for the page Replay. Our choice. */
const MOST_LESSONS = 8;

interface Kept {
  readonly lessons: readonly LessonRecord[];
  readonly takes: readonly StoredTake[];
  readonly evidence: StudentEvidence;
}

/** What was played, and what is known. */
export function History({ student }: { readonly student: Student }) {
  const { database } = useStudio();
  const { day } = useNow();
  const [kept, setKept] = useState<Kept | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  useEffect(() => {
    let isOver = false;
    Promise.all([
      lessonsOfStudent(database, student.id, MOST_LESSONS),
      takesOfStudent(database, student.id, MOST_LESSONS),
      inStudio(database).evidenceOf(student),
    ]).then(
      ([lessons, takes, evidence]) => !isOver && setKept({ lessons, takes, evidence }),
      (error) => !isOver && setTrouble(storeErrorOf(error).message),
    );
    return () => {
      isOver = true;
    };
  }, [database, student]);
  if (trouble !== null)
    return (
      <p role="alert" className={styles.trouble}>
        {trouble}
      </p>
    );
  if (!kept) return <p role="status">Reading what was played.</p>;
  return (
    <>
      <section className={styles.part}>
        <h2>Lessons</h2>
        {kept.lessons.length === 0 ? <p className={styles.soft}>None yet.</p> : <Lessons {...kept} />}
      </section>
      <section className={styles.part}>
        <h2>What {student.nickname} knows</h2>
        <Known evidence={kept.evidence} today={day} />
      </section>
    </>
  );
}

function Lessons({ lessons, takes }: Pick<Kept, "lessons" | "takes">) {
  return (
    <table className={styles.lessons} aria-label="Lessons, the latest first">
      <thead>
        <tr>
          <th scope="col">day</th>
          <th scope="col">from</th>
          <th scope="col">how long</th>
          <th scope="col">takes</th>
          <th scope="col">latest take: to work on</th>
        </tr>
      </thead>
      <tbody>
        {lessons.map(({ id, day, at, zone, seconds, takes: count, invented }) => {
          const latest = takes.find(({ lessonId }) => lessonId === id);
          return (
            <tr key={id}>
              <th scope="row">
                <a className={styles.lesson} href={hrefOf("replay", id)}>
                  {dayInWords(day)}
                </a>
                {invented && <i> (invented)</i>}
              </th>
              <td>{localTime(at, zone)}</td>
              <td>{minutesWords(seconds)}</td>
              <td>{count}</td>
              <td>
                {latest
                  ? `${latest.groove?.name ?? "Free choice"}: ${latest.workOn?.words ?? "nothing to compare"}`
                  : ""}
              </td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}

function Known({ evidence, today }: { readonly evidence: StudentEvidence; readonly today: Day }) {
  const items = [...byItem(evidence.results)];
  if (items.length === 0) return <p className={styles.soft}>Nothing has been asked yet.</p>;
  const names: OwnNames = evidence.ownNames;
  return (
    <table>
      <thead>
        <tr>
          <th scope="col">what</th>
          <th scope="col">how it went</th>
        </tr>
      </thead>
      <tbody>
        {items.map(([item, results]) => {
          const { name, aspect } = itemName(item, names);
          const found = evidenceOf(results);
          return (
            <tr key={item}>
              <th scope="row">
                <b>{name}</b>
                {aspect !== "" && `, ${aspect}`}
              </th>
              <td>{found && evidenceWords(found, today)}</td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}
