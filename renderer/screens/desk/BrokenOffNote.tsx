import { localDay, localTime } from "../../../engine/session/index.ts";
import { useProgram } from "../../app/ProgramContext.tsx";
import { useStudio } from "../../app/StudioContext.tsx";
import { dayInWords } from "../../out/print/dayWords.ts";
import { useWatched } from "../../session/store.ts";
import { Button } from "../../theme/index.ts";
import styles from "./Desk.module.css";

/** A lesson that was on when the program was closed or fell. */
export function BrokenOffNote() {
  const { brokenOff } = useStudio();
  const { lesson } = useProgram();
  const { found, trouble } = useWatched(brokenOff);
  const zone = Intl.DateTimeFormat().resolvedOptions().timeZone;
  return (
    <>
      {trouble !== null && (
        <p role="alert" className={styles.trouble}>
          {trouble}
        </p>
      )}
      {found.kind === "open" && (
        <section className={styles.broken} aria-label="A lesson that was broken off">
          <p>
            The lesson of {dayInWords(localDay(found.at, zone))}, begun at {localTime(found.at, zone)}, was
            broken off. All that was played is kept.
          </p>
          <div className={styles.acts}>
            <Button
              weight="go"
              onPress={async () => {
                await lesson.load();
                await brokenOff.goOn();
              }}
            >
              Go on with it
            </Button>
            <Button onPress={() => void brokenOff.leave()}>End it where it was</Button>
          </div>
        </section>
      )}
    </>
  );
}
