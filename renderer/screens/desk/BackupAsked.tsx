import { useEffect, useState } from "react";
import { hrefOf } from "../../app/route.ts";
import { useStudio } from "../../app/StudioContext.tsx";
import { useWatched } from "../../session/store.ts";
import { type BackupReminder, backupReminder, storeErrorOf } from "../../store/index.ts";
import styles from "./Desk.module.css";

/** Asks for a backup when it is time for one. */
export function BackupAsked() {
  const { database, book } = useStudio();
  const { stage } = useWatched(book.log);
  const [reminder, setReminder] = useState<BackupReminder>({ kind: "none" });
  const [trouble, setTrouble] = useState<string | null>(null);
  // A lesson that has ended may make it time for one.
  useEffect(() => {
    let isOver = false;
    const zone = Intl.DateTimeFormat().resolvedOptions().timeZone;
    backupReminder(database, new Date().toISOString(), zone).then(
      (found) => !isOver && setReminder(found),
      (error) => !isOver && setTrouble(storeErrorOf(error).message),
    );
    return () => {
      isOver = true;
    };
  }, [database, stage]);
  if (trouble !== null)
    return (
      <p role="alert" className={styles.trouble}>
        {trouble}
      </p>
    );
  if (reminder.kind === "none") return null;
  return (
    <p className={styles.following}>
      {reminder.kind === "never"
        ? "No backup of these lessons has been made yet."
        : `The last backup is ${reminder.days} days old.`}{" "}
      <a href={hrefOf("studio")}>Back up in Studio</a>.
    </p>
  );
}
