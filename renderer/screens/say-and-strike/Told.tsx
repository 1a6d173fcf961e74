import { type Call, voicesWords } from "../../../engine/rounds/index.ts";
import { comparisonWords } from "../../../engine/trading/index.ts";
import { useLesson } from "../../app/LessonContext.tsx";
import { useWatched } from "../../session/store.ts";
import { usePlayerName } from "../round/usePlayerName.ts";
import styles from "./SayAndStrike.module.css";

/** What the phrase was, and what became of it: rhythm and sound apart. */
export function Told({ call }: { readonly call: Call }) {
  const { framed } = useLesson();
  const { players } = useWatched(framed["say-and-strike"]);
  const nameOf = usePlayerName();
  return (
    <section aria-labelledby="it-was" className={styles.told}>
      <h2 id="it-was" className={styles.phrase}>
        {call.text ?? voicesWords(call.strokes)}
      </h2>
      <div role="status">
        {call.answers.map(({ by, comparison }) => (
          <p key={by} className={styles.say}>
            {players.length > 1 && `${nameOf(by)}: `}
            {comparisonWords(comparison)}
          </p>
        ))}
      </div>
      {call.text !== null && (
        <p className={styles.soft}>
          That is {voicesWords(call.strokes)}, at {Math.round(call.tempoBpm)} beats a minute.
        </p>
      )}
    </section>
  );
}
