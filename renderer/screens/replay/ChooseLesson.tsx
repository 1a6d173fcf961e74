/** Which lesson to open: a student's, or everybody's, newest first. */
import { useEffect, useState } from "react";
import { type LessonRecord, lessonSchema, type Student } from "../../../engine/records/index.ts";
import { localTime } from "../../../engine/session/index.ts";
import { Note, Page } from "../../app/Page.tsx";
import { dayInWords } from "../../out/print/dayWords.ts";
import {
  lessonsOfStudent,
  readRows,
  type StudioDatabase,
  storeErrorOf,
  studentsOf,
  told,
} from "../../store/index.ts";
import { Button, Choice } from "../../theme/index.ts";
import styles from "./replay.module.css";
import { lessonHref, lessonsHref } from "./replayPlace.ts";
import { lessonInShort, whoWords } from "./replayWords.ts";

/** A page of the list. Our choice: some months of weekly lessons. */
const LESSONS_AT_ONCE = 24;
const EVERYBODY = "everybody";

type Listed =
  | { readonly stage: "loading" }
  | { readonly stage: "failed"; readonly reason: string }
  | {
      readonly stage: "listed";
      readonly students: readonly Student[];
      readonly lessons: readonly LessonRecord[];
      /** There are more than were asked for. */
      readonly more: boolean;
    };

export function ChooseLesson({
  database,
  studentId,
}: {
  readonly database: StudioDatabase;
  readonly studentId: string | null;
}) {
  const [most, setMost] = useState(LESSONS_AT_ONCE);
  const [listed, setListed] = useState<Listed>({ stage: "loading" });
  const [tries, setTries] = useState(0);
  useEffect(() => {
    void tries;
    let isWanted = true;
    void list(database, studentId, most).then((next) => {
      if (isWanted) setListed(next);
    });
    return () => {
      isWanted = false;
    };
  }, [database, studentId, most, tries]);
  const isInvented = listed.stage === "listed" && listed.lessons.some(({ invented }) => invented);
  return (
    <Page
      title="Replay"
      sub="Any lesson, heard and seen again."
      margin={
        <Note heading="A link to a moment">
          <p>The address of an open lesson names the moment. Copy it, and it opens there again.</p>
          {isInvented && <p>The demo studio and its lessons are invented.</p>}
        </Note>
      }
    >
      {listed.stage === "loading" && <p role="status">The lessons are being looked up.</p>}
      {listed.stage === "failed" && (
        <>
          <p role="alert">{listed.reason}</p>
          <p>
            <Button weight="go" onPress={() => setTries(tries + 1)}>
              Try again
            </Button>
          </p>
        </>
      )}
      {listed.stage === "listed" && (
        <Lessons {...listed} studentId={studentId} onMore={() => setMost(most + LESSONS_AT_ONCE)} />
      )}
    </Page>
  );
}

async function list(database: StudioDatabase, studentId: string | null, most: number): Promise<Listed> {
  try {
    const [students, lessons] = await Promise.all([
      studentsOf(database),
      studentId === null ? latestOfAll(database, most + 1) : lessonsOfStudent(database, studentId, most + 1),
    ]);
    return { stage: "listed", students, lessons: lessons.slice(0, most), more: lessons.length > most };
  } catch (error) {
    return { stage: "failed", reason: storeErrorOf(error).message };
  }
}

async function latestOfAll(database: StudioDatabase, most: number): Promise<readonly LessonRecord[]> {
  const rows = await told(() => database.lessons.orderBy("id").reverse().limit(most).toArray());
  return (await readRows(database, database.lessons, lessonSchema, rows)).values;
}

function Lessons({
  students,
  lessons,
  more,
  studentId,
  onMore,
}: Extract<Listed, { stage: "listed" }> & {
  readonly studentId: string | null;
  readonly onMore: () => void;
}) {
  const nameOf = (ids: readonly string[]): string =>
    whoWords(ids.flatMap((id) => students.filter((student) => student.id === id)));
  return (
    <>
      {students.length > 0 && (
        <div className={styles.choose}>
          <Choice
            label="Lessons of"
            options={[
              { id: EVERYBODY, name: "everybody" },
              ...students.map(({ id, nickname }) => ({ id, name: nickname })),
            ]}
            chosen={studentId ?? EVERYBODY}
            onChoose={(id) => {
              window.location.hash = lessonsHref(id === EVERYBODY ? null : id);
            }}
          />
        </div>
      )}
      {lessons.length === 0 ? (
        <p>
          No lesson is kept here yet. A lesson begins when a student is chosen, and everything played in it is
          written down by itself.
        </p>
      ) : (
        <table className={styles.lessons} aria-label="Lessons, the latest first">
          <thead>
            <tr>
              <th scope="col">day</th>
              <th scope="col">began</th>
              <th scope="col">with</th>
              <th scope="col">what there is</th>
            </tr>
          </thead>
          <tbody>
            {lessons.map((lesson) => (
              <tr key={lesson.id}>
                <th scope="row">
                  <a className={styles.lessonLink} href={lessonHref(lesson.id)}>
                    {dayInWords(lesson.day)}
                  </a>
                </th>
                <td>{localTime(lesson.at, lesson.zone)}</td>
                <td>{nameOf(lesson.studentIds)}</td>
                <td>
                  {lessonInShort(lesson)}
                  {lesson.endedAt === null && ", not ended"}
                  {lesson.invented && ", invented"}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {more && (
        <p className={styles.choose}>
          <Button onPress={onMore}>Earlier lessons</Button>
        </p>
      )}
    </>
  );
}
