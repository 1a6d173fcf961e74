import { Note, Page } from "../../app/Page.tsx";
import { hrefOf } from "../../app/route.ts";
import { useStudio } from "../../app/StudioContext.tsx";
import { useWatched } from "../../session/store.ts";
import { Cautions } from "../kit/Cautions.tsx";
import styles from "./Desk.module.css";

/** Before there is anybody to teach, and when nobody is left. */
export function EmptyDesk() {
  const { roster } = useStudio();
  const { trouble, taughtBefore } = useWatched(roster);
  return (
    <Page
      title="Desk"
      sub={<p>{taughtBefore ? "Nobody is on the Roster any more." : "Nobody is on the Roster yet."}</p>}
      margin={
        <>
          <Note heading="Without a student">
            <p>
              Every round can be tried without one, and so can Kit and Shelf. What is played then is kept of
              nobody.
            </p>
          </Note>
          <Cautions />
        </>
      }
    >
      {trouble !== null && (
        <p role="alert" className={styles.trouble}>
          {trouble}
        </p>
      )}
      {taughtBefore && (
        <p className={styles.say}>
          Students were here before. If they were not meant to go, a backup puts them back:{" "}
          <a href={hrefOf("studio")}>Studio</a>.
        </p>
      )}
      <p className={styles.say}>
        Put your students on the Roster, and this page tells you each day who is next.
      </p>
      <ul className={styles.ways}>
        <li>
          <a className={styles.go} href={hrefOf("roster", "new")}>
            {taughtBefore ? "Add a student" : "Add the first student"}
          </a>
          <span>A nickname is enough.</span>
        </li>
        <li>
          <a className={styles.way} href={hrefOf("kit")}>
            Connect the kit
          </a>
          <span>One cable, and a strike on each pad.</span>
        </li>
        <li>
          <a className={styles.way} href={hrefOf("desk", "kits")}>
            Follow the kits of a lab
          </a>
          <span>Up to 32 kits in one room, on the same network.</span>
        </li>
        <li>
          <a className={styles.way} href={hrefOf("studio")}>
            Look at an invented studio
          </a>
          <span>Half a year of made-up lessons, removed again in one step.</span>
        </li>
      </ul>
    </Page>
  );
}
