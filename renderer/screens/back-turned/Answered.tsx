import { momentsWords } from "../../../engine/ear/index.ts";
import { useLesson } from "../../app/LessonContext.tsx";
import { useStudio } from "../../app/StudioContext.tsx";
import { useWatched } from "../../session/store.ts";
import { Button } from "../../theme/index.ts";
import { useRoundKey } from "../round/useRoundKey.ts";
import styles from "./BackTurned.module.css";
import { capital } from "./backTurnedWords.ts";

const BOTH_KEY = { code: "KeyC", shown: "C" };

/** Everybody has answered: what it was, and what it was taken for, to be heard one after the other. */
export function Answered() {
  const { framed } = useLesson();
  const { roster } = useStudio();
  const round = framed["back-turned"];
  const { own, players } = useWatched(round);
  const { question } = own;
  const missed = question?.answers.filter(({ right }) => !right) ?? [];
  const [first] = missed;
  useRoundKey(BOTH_KEY.code, first ? () => round.contrast(first.moments) : null);
  if (!question) return null;
  const nameOf = (id: string | null): string =>
    id === null ? "The teacher" : (roster.student(id)?.nickname ?? "A student");
  return (
    <section aria-labelledby="it-was" className={styles.answered}>
      <h2 id="it-was" className={styles.was}>
        {capital(momentsWords(question.moments))}
      </h2>
      <div role="status">
        {missed.length === 0 && <p className={styles.say}>Heard.</p>}
        {missed.map((answer) => (
          <p key={answer.by} className={styles.say}>
            {players.length > 1 ? `${nameOf(answer.by)} took it for` : "Taken for"}{" "}
            {momentsWords(answer.moments)}.
          </p>
        ))}
      </div>
      {missed.map((answer, place) => (
        <p key={answer.by}>
          <Button
            {...(place === 0 ? { "aria-keyshortcuts": BOTH_KEY.shown } : {})}
            onPress={() => round.contrast(answer.moments)}
          >
            Hear both, what it was first {place === 0 && <kbd>{BOTH_KEY.shown}</kbd>}
          </Button>
        </p>
      ))}
    </section>
  );
}
