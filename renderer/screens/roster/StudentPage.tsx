import { useState } from "react";
import type { Student } from "../../../engine/records/index.ts";
import { Note, Page } from "../../app/Page.tsx";
import { useProgram } from "../../app/ProgramContext.tsx";
import { hrefOf } from "../../app/route.ts";
import { useStudio } from "../../app/StudioContext.tsx";
import { useWatched } from "../../session/store.ts";
import { Button, Toggle } from "../../theme/index.ts";
import { beginLesson } from "../desk/beginLesson.ts";
import { ConsentWords } from "./ConsentWords.tsx";
import { EraseStudent } from "./EraseStudent.tsx";
import { HeardByEar } from "./HeardByEar.tsx";
import { History } from "./History.tsx";
import { LongViewOnPaper } from "./LongViewOnPaper.tsx";
import { LookedAtChart } from "./LookedAtChart.tsx";
import { MergeStudent } from "./MergeStudent.tsx";
import styles from "./Roster.module.css";
import { StudentForm } from "./StudentForm.tsx";
import { draftOf, fieldsOf } from "./studentDraft.ts";
import { TakeStudentAlong } from "./TakeStudentAlong.tsx";
import { UndoLine } from "./UndoLine.tsx";
import { useRosterKeys } from "./useRosterKeys.ts";

/** One student: what is said, what was played, what is known; and the ways out of the studio. */
export function StudentPage({ student }: { readonly student: Student }) {
  const studio = useStudio();
  const { roster, book } = studio;
  const { groups } = useWatched(roster);
  const program = useProgram();
  const { stage } = useWatched(book.writer);
  const { began, stage: lessonStage } = useWatched(book.log);
  const isOn = began !== null && lessonStage !== "ended";
  const [version, setVersion] = useState(0);
  useRosterKeys(roster);
  return (
    <Page
      title={student.invented ? `${student.nickname} (invented)` : student.nickname}
      sub={
        <a className={styles.back} href={hrefOf("roster")}>
          Back to the Roster
        </a>
      }
      margin={
        <>
          <InGroups student={student} />
          <Note heading="Consent">
            <ConsentWords />
          </Note>
        </>
      }
    >
      <UndoLine />
      <div className={styles.acts}>
        <Button
          weight="go"
          isDisabled={isOn || stage !== "writing" || student.archived}
          onPress={async () => {
            await beginLesson(program, studio, student.id);
            window.location.hash = hrefOf("desk");
          }}
        >
          Begin a lesson
        </Button>
        <Button onPress={() => void roster.archive(student.id, !student.archived)}>
          {student.archived ? "Back from the archive" : "Put in the archive"}
        </Button>
      </div>
      <section className={styles.part}>
        <h2>Said of {student.nickname}</h2>
        <StudentForm
          // What was undone, or changed in another window, is shown as it now is.
          key={`${version} ${JSON.stringify(student)}`}
          start={draftOf(student)}
          studentId={student.id}
          keepWords="Keep the changes"
          onKeep={async (draft) => {
            if (await roster.change(student.id, fieldsOf(draft))) setVersion((before) => before + 1);
          }}
        />
      </section>
      <History student={student} />
      <HeardByEar student={student} />
      <LookedAtChart student={student} />
      <LongViewOnPaper student={student} />
      <section className={styles.part}>
        <h2>Out of the studio</h2>
        <TakeStudentAlong student={student} />
        <MergeStudent student={student} />
        <EraseStudent student={student} isBlocked={isOn && began.studentIds.includes(student.id)} />
        {groups.length === 0 && <p className={styles.soft}>Groups are made on the page Roster.</p>}
      </section>
    </Page>
  );
}

/** Which groups the student is in. */
function InGroups({ student }: { readonly student: Student }) {
  const { roster } = useStudio();
  const { groups } = useWatched(roster);
  if (groups.length === 0) return null;
  return (
    <Note heading="Groups">
      {groups.map((group) => (
        <Toggle
          key={group.id}
          isOn={group.studentIds.includes(student.id)}
          onChange={(isIn) =>
            void roster.keepGroup({
              ...group,
              studentIds: isIn
                ? [...group.studentIds, student.id]
                : group.studentIds.filter((id) => id !== student.id),
            })
          }
        >
          {group.name}
        </Toggle>
      ))}
    </Note>
  );
}
