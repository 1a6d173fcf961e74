import type { RoundStage } from "../../../engine/rounds/index.ts";
import { useLesson } from "../../app/LessonContext.tsx";
import { Page } from "../../app/Page.tsx";
import { Button } from "../../theme/index.ts";
import styles from "./CallAStyle.module.css";

/** Between stop and report. A short take passes it before anything is shown. */
export function Judging({ at }: { readonly at: Extract<RoundStage, { stage: "judging" }> }) {
  const { round } = useLesson();
  return (
    <Page title="Thinking it over" sub={`${at.hits.length} strokes.`} takesFocus margin={null}>
      <div className={styles.thinking} role="status">
        <progress aria-label="Thinking the take over" />
      </div>
      <p className={styles.say} role="status">
        {at.isAgainAsked && "Again: the next take begins as soon as this one is thought over."}
      </p>
      <div className={`${styles.go} ${styles.thinking}`}>
        <Button isDisabled={at.isAgainAsked} onPress={() => round.again()}>
          Again
        </Button>
        <kbd>R</kbd>
      </div>
    </Page>
  );
}
