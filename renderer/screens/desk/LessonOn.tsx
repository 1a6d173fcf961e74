import { useLayoutEffect } from "react";
import { hrefOf, useRoute } from "../../app/route.ts";
import { useStudio } from "../../app/StudioContext.tsx";
import { useIsTaking } from "../../app/useIsTaking.ts";
import { useWatched } from "../../session/store.ts";
import { Button } from "../../theme/index.ts";
import styles from "./Desk.module.css";
import { minutesWords, namesWords } from "./deskWords.ts";
import { FiveLeftOn } from "./FiveLeftOn.tsx";
import { flagThisMoment } from "./flag.ts";
import { useLessonSeconds } from "./useLessonSeconds.ts";
import { WhoIsListenedTo } from "./WhoIsListenedTo.tsx";

/** Flags this moment, on every page. Letters play the kit; this key plays nothing. */
const FLAG_KEY = "F2";

/** At the foot of the spine, on every page: the lesson that is on, and that what is shown is invented where it is. */
export function LessonOn() {
  const { book, roster, players } = useStudio();
  const { began, stage, rounds } = useWatched(book.log);
  const { lane } = useWatched(players);
  const round = rounds.find((each) => each.lane === lane && each.to === null);
  const isTaking = useIsTaking();
  const { students } = useWatched(roster);
  const { trouble } = useWatched(book.writer);
  const seconds = useLessonSeconds(book.log);
  const route = useRoute();
  const isOn = began !== null && stage !== "ended";
  // As soon as the page is drawn: a key pressed in that moment counts as well.
  useLayoutEffect(() => {
    const flag = (event: KeyboardEvent): void => {
      if (event.key !== FLAG_KEY || event.repeat || !book.log.isOn) return;
      event.preventDefault();
      flagThisMoment(book, "key");
    };
    window.addEventListener("keydown", flag);
    return () => window.removeEventListener("keydown", flag);
  }, [book]);
  const names = namesWords(
    (began?.studentIds ?? []).map((id) => roster.student(id)?.nickname ?? "a student"),
  );
  return (
    <>
      {isOn && (
        <div className={styles.on}>
          <a href={hrefOf("desk")}>
            {names}, {minutesWords(seconds)}
            {stage === "paused" ? ", paused" : ""}
          </a>
          <Button weight="quiet" aria-keyshortcuts={FLAG_KEY} onPress={() => flagThisMoment(book, "button")}>
            Flag this <kbd>{FLAG_KEY}</kbd>
          </Button>
          {round && route !== "desk" && (
            <Button
              weight="quiet"
              isDisabled={isTaking}
              onPress={() => {
                void book.endRound(lane);
                window.location.hash = hrefOf("desk");
              }}
            >
              End the round
            </Button>
          )}
          <FiveLeftOn />
          {/* The desk has it on its sheet. */}
          {route !== "desk" && <WhoIsListenedTo />}
          {trouble !== null && <p role="alert">Not written down. See Desk.</p>}
        </div>
      )}
      {students?.some(({ invented }) => invented) && (
        <p className={styles.invented}>Millrace Studio: invented</p>
      )}
    </>
  );
}
