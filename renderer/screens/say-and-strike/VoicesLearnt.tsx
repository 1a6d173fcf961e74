import { EXAMPLES_ASKED } from "../../../engine/speech/index.ts";
import { useLesson } from "../../app/LessonContext.tsx";
import { useProgram } from "../../app/ProgramContext.tsx";
import { useWatched } from "../../session/store.ts";
import { Button } from "../../theme/index.ts";
import { usePlayerName } from "../round/usePlayerName.ts";
import styles from "./SayAndStrike.module.css";
import { TEACHERS_VOICE } from "./speaker.ts";

/** With fewer syllables known there is nothing to tell apart. */
export const FEWEST_LEARNT = 2;

/** Which syllables of the one who speaks are known, and the way to say them for the first time. */
export function VoicesLearnt() {
  const { framed } = useLesson();
  const { syllables } = useProgram();
  const round = framed["say-and-strike"];
  useWatched(round);
  const { learnt } = useWatched(round.ear);
  const nameOf = usePlayerName();
  const speaker = round.speaker();
  const set = useWatched(syllables);
  const whose =
    speaker === TEACHERS_VOICE ? "the teacher" : speaker === "student" ? "the student" : nameOf(speaker);
  return (
    <section aria-labelledby="learnt" className={styles.part}>
      <h2 id="learnt">How {whose} says them</h2>
      <p className={styles.soft}>
        For the microphone: press one, then say it {EXAMPLES_ASKED} times with a little quiet between. Only
        those that are known are listened for.
      </p>
      <ul className={styles.learnt}>
        {set.syllables.map(({ text }) => {
          const count = learnt.get(speaker)?.get(text) ?? 0;
          return (
            <li key={text}>
              <Button onPress={() => void round.ear.learn(speaker, text)}>
                {text}{" "}
                <span className={styles.soft}>
                  {count >= EXAMPLES_ASKED ? "known" : `${count} of ${EXAMPLES_ASKED}`}
                </span>
              </Button>
            </li>
          );
        })}
      </ul>
      {learnt.size > 0 && (
        <p>
          <Button weight="quiet" onPress={() => round.ear.forget()}>
            Forget all voices
          </Button>
        </p>
      )}
    </section>
  );
}
