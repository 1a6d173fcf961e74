import { lazy, Suspense } from "react";
import { Note, Page } from "../../app/Page.tsx";
import { useProgram } from "../../app/ProgramContext.tsx";
import { hrefOf } from "../../app/route.ts";
import { useStudio } from "../../app/StudioContext.tsx";
import { useIsTaking } from "../../app/useIsTaking.ts";
import { useWatched } from "../../session/store.ts";
import { Button } from "../../theme/index.ts";
import { Cautions } from "../kit/Cautions.tsx";
import { endOf } from "../roster/lessonTimes.ts";
import { StudentName } from "../roster/StudentName.tsx";
import { BackupAsked } from "./BackupAsked.tsx";
import { BrokenOffNote } from "./BrokenOffNote.tsx";
import { beginLesson } from "./beginLesson.ts";
import styles from "./Desk.module.css";
import { dueWords, laterWords, minutesWords, whichLesson } from "./deskWords.ts";
import { Fading } from "./Fading.tsx";
import { LessonOver } from "./LessonOver.tsx";
import type { DeskLine } from "./today.ts";
import { useDue, type useToday } from "./useDesk.ts";

const AnyStudent = lazy(async () => ({ default: (await import("./AnyStudent.tsx")).AnyStudent }));

/** No lesson is on: today's lessons, who is next, and what is due. */
export function TodayDesk({ today }: { readonly today: ReturnType<typeof useToday> }) {
  const studio = useStudio();
  const program = useProgram();
  const { stage, mishap } = useWatched(studio.book.writer);
  const roster = useWatched(studio.roster);
  const isTaking = useIsTaking();
  const { now, lines, next, later, students } = today;
  const dueIds =
    lines.length > 0
      ? lines.map(({ student }) => student.id)
      : later.slice(0, 1).map(({ student }) => student.id);
  const { due, trouble } = useDue(studio, dueIds, now.day);
  const ahead = next?.student ?? later[0]?.student;
  const isBlocked = stage !== "writing" || isTaking;
  const begin = (studentId: string): void => void beginLesson(program, studio, studentId);
  const backUpTrouble = useWatched(studio.backUps);
  const troubles = [today.trouble, trouble, mishap, roster.trouble, backUpTrouble].filter(
    (each) => each !== null,
  );
  return (
    <Page
      title={next ? `${next.student.nickname}, at ${next.lessonDay.from}` : "Desk"}
      sub={<p>{subWords(today, students === null)}</p>}
      margin={
        <>
          {ahead && ahead.notes !== "" && (
            <Note heading="Remembered">
              <p className={styles.notes}>{ahead.notes}</p>
            </Note>
          )}
          <Cautions />
        </>
      }
    >
      {troubles.map((each) => (
        <p key={each} role="alert" className={styles.trouble}>
          {each}
        </p>
      ))}
      <BrokenOffNote />
      <BackupAsked />
      {stage === "following" && (
        <p role="status" className={styles.following}>
          Another window of the program writes the lesson. Here you can look things up; when that window is
          closed, this one takes over.
        </p>
      )}
      {isTaking && <p className={styles.following}>A take is being played. End it, then begin the lesson.</p>}
      {next && (
        <div className={styles.acts}>
          <Button weight="go" isDisabled={isBlocked} onPress={() => begin(next.student.id)}>
            Begin with {next.student.nickname}
          </Button>
          <a className={styles.way} href={hrefOf("roster", next.student.id)}>
            Look at the record
          </a>
        </div>
      )}
      <LessonOver />
      {lines.length > 0 && (
        <Lines lines={lines} nextId={next?.student.id} due={due} isBlocked={isBlocked} onBegin={begin} />
      )}
      {ahead && <Fading student={ahead} due={due.get(ahead.id)} today={now.day} />}
      {/* Choosing takes a list that opens, which the page need not wait for. */}
      <Suspense fallback={null}>
        <AnyStudent isBlocked={isBlocked} onBegin={begin} />
      </Suspense>
      {later.length > 0 && (
        <section className={styles.part}>
          <h2>After today</h2>
          <p>
            {later
              .slice(0, 6)
              .map((each) => `${each.student.nickname} ${laterWords(each)}`)
              .join(" · ")}
          </p>
        </section>
      )}
      <p>
        <a className={styles.way} href={hrefOf("desk", "kits")}>
          Follow the kits of a lab
        </a>
      </p>
    </Page>
  );
}

function subWords({ lines, next, later }: ReturnType<typeof useToday>, isReading: boolean): string {
  if (isReading) return "Reading what was kept.";
  if (next) return `${minutesWords(next.lessonDay.minutes * 60)}, until ${endOf(next.lessonDay)}.`;
  const [first] = later;
  const after = first ? ` ${first.student.nickname} is next, ${laterWords(first)}.` : "";
  return lines.length > 0 ? `All of today’s lessons are held.${after}` : `No lesson today.${after}`;
}

function Lines({
  lines,
  nextId,
  due,
  isBlocked,
  onBegin,
}: {
  readonly lines: readonly DeskLine[];
  readonly nextId: string | undefined;
  readonly due: ReturnType<typeof useDue>["due"];
  readonly isBlocked: boolean;
  readonly onBegin: (studentId: string) => void;
}) {
  return (
    <section className={styles.part}>
      <h2>Today</h2>
      <table className={styles.today}>
        <thead>
          <tr>
            <th scope="col">from</th>
            <th scope="col">who</th>
            <th scope="col">how long</th>
            <th scope="col">due</th>
            <th scope="col">lesson</th>
          </tr>
        </thead>
        <tbody>
          {lines.map(({ student, lessonDay, held }) => {
            const found = due.get(student.id);
            return (
              <tr key={student.id} data-next={student.id === nextId || undefined}>
                <td>{lessonDay.from}</td>
                <th scope="row">
                  <StudentName student={student} />
                </th>
                <td>{minutesWords(lessonDay.minutes * 60)}</td>
                <td>{found ? dueWords(found.list.refresh.length, found.list.new.length) : "reading"}</td>
                <td>
                  {held ? (
                    <>held, {minutesWords(held.seconds)}</>
                  ) : student.id === nextId ? (
                    whichLesson((found?.lessons ?? 0) + 1)
                  ) : (
                    <Button weight="quiet" isDisabled={isBlocked} onPress={() => onBegin(student.id)}>
                      Begin with {student.nickname}
                    </Button>
                  )}
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </section>
  );
}
