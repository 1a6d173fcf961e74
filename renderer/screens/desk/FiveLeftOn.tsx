import { itemName, ROUND_NAMES } from "../../../engine/memory/index.ts";
import { useProgram } from "../../app/ProgramContext.tsx";
import { useStudio } from "../../app/StudioContext.tsx";
import { useWatched } from "../../session/store.ts";
import { Button } from "../../theme/index.ts";
import { playItems } from "../next-time/playItems.ts";
import styles from "./Desk.module.css";
import { useSecondsNow } from "./useLessonSeconds.ts";

/** Five Left while it runs, on every page: what is dealt now, how long it goes on, and the way to the next. */
export function FiveLeftOn() {
  const program = useProgram();
  const studio = useStudio();
  const { fiveLeft, book } = studio;
  const state = useWatched(fiveLeft);
  const now = useSecondsNow(book.log);
  if (state.stage !== "on") return null;
  const { deal, names, at, ends } = state;
  const dealt = deal.rounds[at];
  if (!dealt) return null;
  return (
    <section className={styles.fiveLeft} aria-label="Five Left">
      <p>
        <b>{ROUND_NAMES[dealt.round]}</b>, {leftWords(ends - now)}
      </p>
      {dealt.round === "call-a-style" ? (
        <ul>
          {dealt.items.map(({ item, why }) => {
            const { name, aspect } = itemName(item, names);
            return (
              <li key={item} title={why}>
                <Button
                  weight="quiet"
                  onPress={() => void playItems(program, studio, { items: [item], nothingElse: false })}
                >
                  {aspect === "" ? name : `${name}, ${aspect}`}
                </Button>
              </li>
            );
          })}
        </ul>
      ) : (
        // Their names would be the answers, on the page the student looks at.
        <p>{dealt.items.length === 1 ? "One thing is dealt." : `${dealt.items.length} things are dealt.`}</p>
      )}
      {at + 1 < deal.rounds.length && (
        <Button weight="quiet" onPress={() => fiveLeft.next()}>
          Next round
        </Button>
      )}
      <Button weight="quiet" onPress={() => fiveLeft.end()}>
        End Five Left
      </Button>
    </section>
  );
}

/** "3 minutes left", "under a minute left" */
function leftWords(seconds: number): string {
  const minutes = Math.ceil(seconds / 60);
  if (seconds < 60) return "under a minute left";
  return minutes === 1 ? "1 minute left" : `${minutes} minutes left`;
}
