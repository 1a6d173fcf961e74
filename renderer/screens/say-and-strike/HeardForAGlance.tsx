import { useLesson } from "../../app/LessonContext.tsx";
import { Button } from "../../theme/index.ts";
import type { Proposal } from "./doing.ts";
import styles from "./SayAndStrike.module.css";

/** Below this the ear says that it is unsure of a syllable. Our choice. */
const SURE = 0.5;

/** What the microphone heard, for a glance: so, or not so. */
export function HeardForAGlance({ proposal: { as, words } }: { readonly proposal: Proposal }) {
  const { framed } = useLesson();
  const round = framed["say-and-strike"];
  const unsure = words.filter(({ confidence }) => confidence < SURE).length;
  return (
    <section aria-labelledby="glance" className={styles.part}>
      <h2 id="glance" className={styles.soft}>
        {as === "call" ? "Is this what was said?" : "Is this your answer?"}
      </h2>
      <p role="status" className={styles.phrase}>
        {words.map(({ syllable, confidence }) => (confidence < SURE ? `${syllable}?` : syllable)).join(" ")}
      </p>
      {unsure > 0 && <p className={styles.soft}>I am not sure of those with a question mark.</p>}
      <p>
        <Button weight="quiet" onPress={() => round.dropProposal()}>
          Neither
        </Button>
      </p>
    </section>
  );
}
