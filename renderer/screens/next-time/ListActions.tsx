import { Button } from "../../theme/index.ts";
import styles from "./NextTime.module.css";
import type { ListActs } from "./useListKeys.ts";

/** What can be done to the entry in focus, each with its key. */
export function ListActions({
  acts,
  can,
  onPlay,
}: {
  readonly acts: ListActs;
  readonly can: {
    readonly up: boolean;
    readonly down: boolean;
    readonly act: boolean;
    readonly undo: boolean;
  };
  /** `null` where the entry in focus cannot be played now. */
  readonly onPlay: (() => void) | null;
}) {
  return (
    <div className={styles.actions} role="toolbar" aria-label="The entry in focus">
      {onPlay && (
        <Button weight="go" onPress={onPlay}>
          Play it now
        </Button>
      )}
      <Button isDisabled={!can.up} onPress={acts.moveUp} aria-keyshortcuts="Alt+ArrowUp">
        Move up
      </Button>
      <Button isDisabled={!can.down} onPress={acts.moveDown} aria-keyshortcuts="Alt+ArrowDown">
        Move down
      </Button>
      <Button isDisabled={!can.act} onPress={acts.moveAcross} aria-keyshortcuts="m">
        To the other part
      </Button>
      <Button isDisabled={!can.act} onPress={acts.crossOff} aria-keyshortcuts="x">
        Cross off
      </Button>
      <Button weight="quiet" isDisabled={!can.undo} onPress={acts.undo} aria-keyshortcuts="Control+Z">
        Undo
      </Button>
    </div>
  );
}
