import { useEffect, useRef, useState } from "react";
import { agoWords, daysBetween } from "../../../engine/memory/index.ts";
import { localDay } from "../../../engine/session/index.ts";
import { useStudio } from "../../app/StudioContext.tsx";
import { messageOf } from "../../out/saveFile.ts";
import { shellDoorOf } from "../../shell/index.ts";
import { lastBackup } from "../../store/index.ts";
import { Button } from "../../theme/index.ts";
import { useNow } from "../desk/useDesk.ts";
import { FollowFolder } from "./BackupFolder.tsx";
import { type BackedUp, backUpToFile } from "./backUpToFile.ts";
import styles from "./Studio.module.css";

type State =
  | { readonly at: "rest" }
  | { readonly at: "writing"; readonly share: number }
  | { readonly at: "done"; readonly done: BackedUp }
  | { readonly at: "failed"; readonly reason: string };

/** The whole studio as one file, with what was done last. */
export function BackUp() {
  const { database } = useStudio();
  const { day } = useNow();
  const [state, setState] = useState<State>({ at: "rest" });
  const [latest, setLatest] = useState<string | null | undefined>(undefined);
  const giveUp = useRef<AbortController | null>(null);
  // A backup that is done changes which is the latest.
  useEffect(() => {
    let isOver = false;
    lastBackup(database).then(
      (found) => !isOver && setLatest(found),
      (error) => !isOver && setState({ at: "failed", reason: messageOf(error) }),
    );
    return () => {
      isOver = true;
    };
  }, [database, state.at]);
  const start = async (): Promise<void> => {
    const controller = new AbortController();
    giveUp.current = controller;
    setState({ at: "writing", share: 0 });
    try {
      const done = await backUpToFile(database, {
        madeAt: new Date().toISOString(),
        signal: controller.signal,
        onProgress: ({ rows, of }) => setState({ at: "writing", share: of === 0 ? 1 : rows / of }),
      });
      setState(done.kind === "put-down" ? { at: "rest" } : { at: "done", done });
    } catch (error) {
      setState({ at: "failed", reason: `The backup was not made: ${messageOf(error)}` });
    }
  };
  const zone = Intl.DateTimeFormat().resolvedOptions().timeZone;
  return (
    <section>
      <h2>Back up</h2>
      <p>
        One file with everything in it, checked when it is read back. Keep it on another disk.{" "}
        {latest === null && "No backup has been made yet."}
        {typeof latest === "string" &&
          `The last one was made ${agoWords(Math.max(0, daysBetween(localDay(latest, zone), day)))}.`}
      </p>
      <div className={styles.acts}>
        <Button weight="go" isDisabled={state.at === "writing"} onPress={() => void start()}>
          Back up now
        </Button>
        {state.at === "writing" && <Button onPress={() => giveUp.current?.abort()}>Stop the backup</Button>}
      </div>
      {state.at === "writing" && (
        <progress className={styles.progress} value={state.share} max={1} aria-label="Backup under way" />
      )}
      <p role="status">{state.at === "done" ? doneWords(state.done) : ""}</p>
      {state.at === "failed" && (
        <p role="alert" className="trouble">
          {state.reason}
        </p>
      )}
      {shellDoorOf(window) !== undefined && <FollowFolder />}
    </section>
  );
}

function doneWords(done: BackedUp): string {
  switch (done.kind) {
    case "saved":
      return `Saved: ${done.name}.${done.trouble === undefined ? "" : ` ${done.trouble}`}`;
    case "handed-over":
      return `Handed over to the downloads: ${done.name}.`;
    case "put-down":
      return "";
  }
}
