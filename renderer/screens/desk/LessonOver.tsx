import { useStudio } from "../../app/StudioContext.tsx";
import { useWatched } from "../../session/store.ts";
import { lessonHref } from "../replay/replayPlace.ts";
import styles from "./Desk.module.css";
import { minutesWords, namesWords } from "./deskWords.ts";
import { RoundTally } from "./RoundTally.tsx";

/** The lesson that has just ended: the tally of its rounds, and where to hear it again. */
export function LessonOver() {
  const { book, roster } = useStudio();
  const { began, stage, rounds, time } = useWatched(book.log);
  if (!began || stage !== "ended") return null;
  const students = began.studentIds.map((id) => roster.student(id)?.nickname ?? "a student");
  return (
    <section className={styles.part} aria-label="The lesson that has just ended">
      <h2>
        {namesWords(students)}: the lesson is over, {minutesWords(time)}
      </h2>
      {rounds
        .filter(({ takes, steps }) => takes.length > 0 || steps.length > 0)
        .toReversed()
        .map((round) => (
          <RoundTally key={round.roundId} round={round} isOfTwo={students.length > 1} />
        ))}
      <a className={styles.way} href={lessonHref(began.lessonId)}>
        Hear it again in Replay
      </a>
    </section>
  );
}
