import { useStudio } from "../../app/StudioContext.tsx";
import { useWatched } from "../../session/store.ts";
import { Button } from "../../theme/index.ts";
import styles from "./Roster.module.css";

/** What was done last, and the way to take it back; or why something was not done. */
export function UndoLine() {
  const { roster } = useStudio();
  const { said, undoable, trouble } = useWatched(roster);
  return (
    <>
      {trouble !== null && (
        <p role="alert" className={styles.trouble}>
          {trouble}
        </p>
      )}
      <div className={styles.said}>
        <p role="status">{said}</p>
        {undoable !== null && (
          <Button weight="quiet" aria-keyshortcuts="Control+Z" onPress={() => void roster.undo()}>
            Undo: {undoable}
          </Button>
        )}
      </div>
    </>
  );
}
