import type { SpottingQuestion } from "../../../engine/rounds/index.ts";
import { useLesson } from "../../app/LessonContext.tsx";
import { useStudio } from "../../app/StudioContext.tsx";
import { Button } from "../../theme/index.ts";
import { useRoundKey } from "../round/useRoundKey.ts";
import styles from "./Spotting.module.css";
import { answerWords } from "./spottingWords.ts";
import { playItNow, teachIt } from "./turnTo.ts";

const PLAY_KEY = { code: "KeyQ", shown: "Q" };
const TEACH_KEY = { code: "KeyE", shown: "E" };

/** Everybody has answered: what it was, how it is said, and what can be done with it now. */
export function Spotted({ question }: { readonly question: SpottingQuestion }) {
  const lesson = useLesson();
  const { roster } = useStudio();
  const round = lesson.framed.spotting;
  const { thing } = question.key;
  const spottable = round.spottable(thing);
  const isPlayable = spottable?.thing.kind === "groove";
  useRoundKey(PLAY_KEY.code, spottable && isPlayable ? () => playItNow(lesson, spottable) : null);
  useRoundKey(TEACH_KEY.code, spottable ? () => teachIt(lesson, spottable) : null);
  const nameOf = (id: string | null): string =>
    id === null ? "The teacher" : (roster.student(id)?.nickname ?? "A student");
  return (
    <section aria-labelledby="it-was" className={styles.spotted}>
      <h2 id="it-was" className={styles.was}>
        {thing?.name ?? "I know none that goes like this."}
      </h2>
      {spottable?.said != null && <p className={styles.said}>Said: {spottable.said}</p>}
      {spottable?.itself != null && <p className={styles.itself}>{spottable.itself}</p>}
      <div role="status">
        {question.answers.map(({ by, answer }) => (
          <p key={by} className={styles.answer}>
            {question.answers.length > 1 && `${nameOf(by)}: `}
            {answerWords(question, answer)}
          </p>
        ))}
        {question.key.by === "program" && question.key.isNew && (
          <p className={styles.soft}>It was the new one of this round.</p>
        )}
        {thing === null && (
          <p className={styles.soft}>
            Say in the margin what it was; without that the question counts for nothing.
          </p>
        )}
      </div>
      {spottable && (
        <div className={styles.turnTo}>
          {isPlayable && (
            <Button aria-keyshortcuts={PLAY_KEY.shown} onPress={() => playItNow(lesson, spottable)}>
              Play it now <kbd>{PLAY_KEY.shown}</kbd>
            </Button>
          )}
          <Button aria-keyshortcuts={TEACH_KEY.shown} onPress={() => teachIt(lesson, spottable)}>
            Teach me <kbd>{TEACH_KEY.shown}</kbd>
          </Button>
        </div>
      )}
    </section>
  );
}
