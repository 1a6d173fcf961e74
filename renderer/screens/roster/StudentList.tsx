import { useRef, useState } from "react";
import type { Student } from "../../../engine/records/index.ts";
import { levelName } from "../../../engine/score/index.ts";
import { Note, Page } from "../../app/Page.tsx";
import { hrefOf } from "../../app/route.ts";
import { useStudio } from "../../app/StudioContext.tsx";
import { useWatched } from "../../session/store.ts";
import { Choice, FindBox, Toggle } from "../../theme/index.ts";
import { ConsentWords } from "./ConsentWords.tsx";
import { findStudents } from "./find.ts";
import { Groups } from "./Groups.tsx";
import { lessonDayWords } from "./lessonTimes.ts";
import styles from "./Roster.module.css";
import { StudentName } from "./StudentName.tsx";
import { UndoLine } from "./UndoLine.tsx";
import { useRosterKeys } from "./useRosterKeys.ts";

const ALL = "all";

/** All students, to be found and opened. */
export function StudentList() {
  const { roster } = useStudio();
  const { students, groups } = useWatched(roster);
  const [typed, setTyped] = useState("");
  const [groupId, setGroupId] = useState<string | null>(null);
  const [archived, setArchived] = useState(false);
  const line = useRef<HTMLInputElement>(null);
  const list = useRef<HTMLTableSectionElement>(null);
  useRosterKeys(roster, line);
  const all = students ?? [];
  const found = findStudents(all, groups, { typed, groupId, archived });
  const here = all.filter((student) => !student.archived).length;
  const openFirst = (): void => {
    const [first] = found;
    if (first) window.location.hash = hrefOf("roster", first.id);
  };
  return (
    <Page
      title="Roster"
      sub={<p>{students === null ? "Reading what was kept." : countWords(here, all.length - here)}</p>}
      margin={
        <>
          <Groups />
          <Note heading="What is kept of a student">
            <ConsentWords />
          </Note>
        </>
      }
    >
      <UndoLine />
      <div className={styles.above}>
        <FindBox
          label="Find a student"
          keyCap="/"
          typed={typed}
          inputRef={line}
          onType={setTyped}
          onEnter={openFirst}
          onArrowDown={() => list.current?.querySelector("a")?.focus()}
        />
        {groups.length > 0 && (
          <div className={styles.group}>
            <Choice
              label="Group"
              options={[{ id: ALL, name: "all" }, ...groups.map(({ id, name }) => ({ id, name }))]}
              chosen={groupId ?? ALL}
              onChoose={(id) => setGroupId(id === ALL ? null : id)}
            />
          </div>
        )}
        {all.length > here && (
          <Toggle isOn={archived} onChange={setArchived}>
            The archive
          </Toggle>
        )}
        <a className={styles.go} href={hrefOf("roster", "new")}>
          Add a student
        </a>
      </div>
      {found.length === 0 ? (
        <p className={styles.none}>{noneWords(all.length, typed, archived)}</p>
      ) : (
        <table className={styles.students}>
          <thead>
            <tr>
              <th scope="col">who</th>
              <th scope="col">level</th>
              <th scope="col">lesson</th>
              <th scope="col">groups</th>
            </tr>
          </thead>
          <tbody ref={list}>
            {found.map((student) => (
              <Row
                key={student.id}
                student={student}
                groups={groups
                  .filter(({ studentIds }) => studentIds.includes(student.id))
                  .map(({ name }) => name)}
              />
            ))}
          </tbody>
        </table>
      )}
    </Page>
  );
}

function Row({ student, groups }: { readonly student: Student; readonly groups: readonly string[] }) {
  return (
    <tr>
      <th scope="row">
        <a className={styles.open} href={hrefOf("roster", student.id)}>
          <StudentName student={student} />
        </a>
      </th>
      <td>{levelName(student.level)}</td>
      <td>{lessonDayWords(student.lessonDay)}</td>
      <td>{groups.join(", ")}</td>
    </tr>
  );
}

function countWords(here: number, archived: number): string {
  const students = here === 1 ? "1 student" : `${here} students`;
  return archived > 0 ? `${students}, and ${archived} in the archive.` : `${students}.`;
}

function noneWords(count: number, typed: string, archived: boolean): string {
  if (count === 0) return "Nobody yet. Add the first student: a nickname is enough.";
  if (typed !== "") return "Nobody is found by that.";
  return archived
    ? "Nobody is in the archive."
    : "Nobody is here. Those who no longer come are in the archive.";
}
