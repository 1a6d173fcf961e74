import { useWatched } from "../session/store.ts";
import { Button } from "../theme/index.ts";
import styles from "./NewVersion.module.css";
import type { Offline } from "./offline.ts";

/** Tells of a new version; it is shown when the user wants it, never by itself. */
export function NewVersion({ offline }: { readonly offline: Offline }) {
  const { state } = useWatched(offline);
  return (
    <div role="status">
      {state === "new version" && (
        <div className={styles.note}>
          <p>A new version is here. Loading it ends a take that is being played.</p>
          <Button weight="go" onPress={() => offline.load()}>
            Load it
          </Button>
        </div>
      )}
    </div>
  );
}
