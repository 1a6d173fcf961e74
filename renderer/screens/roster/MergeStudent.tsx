import { useState } from "react";
import type { Student } from "../../../engine/records/index.ts";
import { useStudio } from "../../app/StudioContext.tsx";
import { useWatched } from "../../session/store.ts";
import { Button, Choice } from "../../theme/index.ts";
import { type BeforeMerging, mergeStudents, unmergeStudents } from "./mergeStudents.ts";
import styles from "./Roster.module.css";

/** The same person twice on the Roster becomes one. It can be taken back. */
export function MergeStudent({ student }: { readonly student: Student }) {
  const { database, roster, book } = useStudio();
  const { students } = useWatched(roster);
  const { began, stage } = useWatched(book.log);
  const [otherId, setOtherId] = useState<string | null>(null);
  const others = (students ?? []).filter(({ id }) => id !== student.id);
  const other = others.find(({ id }) => id === otherId);
  const isOn = began !== null && stage !== "ended";
  if (others.length === 0) return null;
  const merge = async (gone: Student): Promise<void> => {
    let before: BeforeMerging | undefined;
    await roster.changeBy(
      `${gone.nickname} made one with ${student.nickname}`,
      async () => {
        before = await mergeStudents(database, student, gone);
      },
      async () => {
        if (before) await unmergeStudents(database, before);
      },
    );
    setOtherId(null);
  };
  return (
    <div className={styles.way}>
      <h3>Twice on the Roster</h3>
      <p>
        Another entry of the same person becomes one with this: its lessons, takes and results move here, its
        notes are added to these. Undo takes it back.
      </p>
      <div className={styles.acts}>
        <Choice
          label={`Who is ${student.nickname} as well?`}
          options={others.map(({ id, nickname, archived }) => ({
            id,
            name: archived ? `${nickname}, in the archive` : nickname,
          }))}
          chosen={other?.id ?? null}
          onChoose={setOtherId}
        />
        <Button isDisabled={!other || isOn} onPress={() => other && void merge(other)}>
          {other ? `Make ${other.nickname} one with ${student.nickname}` : "Make one"}
        </Button>
      </div>
      {isOn && <p className={styles.soft}>End the lesson first.</p>}
    </div>
  );
}
