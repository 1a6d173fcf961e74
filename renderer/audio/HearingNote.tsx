import { useEffect, useRef } from "react";
import { Button } from "../theme/index.ts";
import { allowedHours, hoursWords, NIOSH_DAY, WHO_WEEK, WHO_WEEK_CHILDREN } from "./exposure.ts";
import styles from "./SoundControls.module.css";
import { STEP_DB } from "./volume.ts";

/** Enough rows of the published table to see how fast the time runs out. */
const LEVELS_DBA = [85, 88, 94, 100];

/** What to know before the first time with headphones. Figures: {@link file://./exposure.ts}. */
export function HearingNote({ onRead }: { readonly onRead: () => void }) {
  const note = useRef<HTMLElement>(null);
  useEffect(() => {
    // Newer browsers answer with a promise, which an effect may not return.
    void note.current?.scrollIntoView({ block: "nearest" });
  }, []);
  return (
    <section ref={note} className={styles.note} aria-label="Before the headphones">
      <h3>Before the headphones</h3>
      <p role="status">
        Put them on with the volume low, then go up until it is just enough: how loud your headphones are, the
        program cannot know.
      </p>
      <table>
        <caption>Longest time a day (NIOSH 1998)</caption>
        <thead>
          <tr>
            <th scope="col">Level at the ear</th>
            <th scope="col">Time</th>
          </tr>
        </thead>
        <tbody>
          {LEVELS_DBA.map((levelDba) => (
            <tr key={levelDba}>
              <th scope="row">{levelDba} dBA</th>
              <td>{hoursWords(allowedHours(levelDba, NIOSH_DAY))}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p>
        A step of this volume is {STEP_DB} dB: one up halves the time. For a week WHO advises{" "}
        {WHO_WEEK.levelDba} dBA for {hoursWords(WHO_WEEK.hours)}; for children {WHO_WEEK_CHILDREN.levelDba}{" "}
        dBA.
      </p>
      <p>
        If your ears ring or sound is muffled, rest them; see a doctor if it stays. Local rules and medical
        advice come first.
      </p>
      <Button onPress={onRead}>I have read this</Button>
    </section>
  );
}
