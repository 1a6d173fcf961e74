import type { Student } from "../../../engine/records/index.ts";
import { useProgram } from "../../app/ProgramContext.tsx";
import { useStudio } from "../../app/StudioContext.tsx";
import { SavingTold } from "../../out/SavingTold.tsx";
import type { FileKind } from "../../out/saveFile.ts";
import { useSaving } from "../../out/useSaving.ts";
import { Button } from "../../theme/index.ts";
import styles from "./Roster.module.css";

const ZIP: FileKind = { name: "Files in one, zip", type: "application/zip", ending: "zip" };

/** One student in open formats, as one file. */
export function TakeStudentAlong({ student }: { readonly student: Student }) {
  const { database } = useStudio();
  const { session } = useProgram();
  const { saving, save } = useSaving();
  const make = async () => {
    // Zipping is wanted by few: it comes when it is asked for.
    const { plain, studentFiles, zipOf } = await import("./studentFiles.ts");
    const madeAt = new Date().toISOString();
    const zone = Intl.DateTimeFormat().resolvedOptions().timeZone;
    const how = { madeAt, zone, program: "throneside", map: session.kitMap.get().map };
    return {
      name: `${plain(student.nickname)}, ${madeAt.slice(0, 10)}.zip`,
      kind: ZIP,
      content: await zipOf(studentFiles(database, student, how), madeAt),
    };
  };
  return (
    <div className={styles.way}>
      <h3>Take along</h3>
      <p>
        One zip: a page to read, tables (CSV), every take as MIDI, and the archive, which a studio can put
        back. Of lessons with others, only this student’s part.
      </p>
      <Button isDisabled={saving?.kind === "making"} onPress={() => void save(make)}>
        Take {student.nickname} along
      </Button>
      <SavingTold saving={saving} />
    </div>
  );
}
