import { useStudio } from "../../app/StudioContext.tsx";
import { useWatched } from "../../session/store.ts";
import { Choice } from "../../theme/index.ts";
import styles from "./Desk.module.css";
import { GroupLesson } from "./GroupLesson.tsx";
import { TwoStudents } from "./TwoStudents.tsx";

/** A lesson can be begun with anybody, whatever the calendar says, when a student is chosen; or with two. */
export function AnyStudent({
  isBlocked,
  onBegin,
}: {
  readonly isBlocked: boolean;
  readonly onBegin: (studentId: string) => void;
}) {
  const { roster } = useStudio();
  const { students } = useWatched(roster);
  const here = (students ?? []).filter(({ archived }) => !archived);
  if (here.length === 0 || isBlocked) return null;
  return (
    <section className={styles.part}>
      <h2>Anybody else</h2>
      <div className={styles.acts}>
        <Choice
          label="Begin a lesson with"
          options={here.map(({ id, nickname }) => ({ id, name: nickname }))}
          chosen={null}
          onChoose={onBegin}
        />
        <GroupLesson isBlocked={isBlocked} />
        {here.length > 1 && <TwoStudents isBlocked={isBlocked} />}
      </div>
    </section>
  );
}
