import { surfaceName } from "../../../engine/ear/index.ts";
import { useLesson } from "../../app/LessonContext.tsx";
import { useWatched } from "../../session/store.ts";
import { Button } from "../../theme/index.ts";
import styles from "./BackTurned.module.css";
import { capital } from "./backTurnedWords.ts";

/** Before the first question: each surface is heard once more, all in a row or one by one. */
export function Refresher() {
  const { framed } = useLesson();
  const round = framed["back-turned"];
  useWatched(round);
  const now = useWatched(round.refreshing);
  if (round.isAskedByKit)
    return (
      <section aria-labelledby="refresher">
        <h2 id="refresher">First each once.</h2>
        <p>Strike them one by one and say their names. Then next: what is struck after that is a question.</p>
      </section>
    );
  return (
    <section aria-labelledby="refresher">
      <h2 id="refresher">First each once.</h2>
      <p className={styles.say} role="status">
        {now === null ? "Press a name to hear it again; next asks." : capital(surfaceName(now))}
      </p>
      <div className={styles.names}>
        {round.refresher().map((surface) => (
          <Button key={surface} isNow={surface === now} onPress={() => round.hear(surface)}>
            {surfaceName(surface)}
          </Button>
        ))}
      </div>
    </section>
  );
}
