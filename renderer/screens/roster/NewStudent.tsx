import { Note, Page } from "../../app/Page.tsx";
import { hrefOf } from "../../app/route.ts";
import { useStudio } from "../../app/StudioContext.tsx";
import { ConsentWords } from "./ConsentWords.tsx";
import styles from "./Roster.module.css";
import { StudentForm } from "./StudentForm.tsx";
import { BLANK, fieldsOf } from "./studentDraft.ts";
import { UndoLine } from "./UndoLine.tsx";

/** A student who is not on the Roster yet. */
export function NewStudent() {
  const { roster } = useStudio();
  return (
    <Page
      title="A new student"
      sub={
        <a className={styles.back} href={hrefOf("roster")}>
          Back to the Roster
        </a>
      }
      margin={
        <Note heading="What is kept of a student">
          <ConsentWords />
        </Note>
      }
    >
      <UndoLine />
      <StudentForm
        start={BLANK}
        keepWords="Add to the Roster"
        autoFocus
        onKeep={async (draft) => {
          const id = await roster.add(fieldsOf(draft));
          if (id !== null) window.location.hash = hrefOf("roster", id);
        }}
      />
    </Page>
  );
}
