import { useSyncExternalStore } from "react";
import { Button } from "../../theme/index.ts";
import { goesAlong } from "./playhead.ts";
import styles from "./replay.module.css";
import type { OpenLesson } from "./replayDesk.ts";
import type { ReplayPlayer } from "./replayPlayer.ts";

/** That the lesson is on, and whether one goes along with it. */
export function GoesOn({
  lesson: { on, notFollowed },
  player,
}: {
  readonly lesson: OpenLesson;
  readonly player: ReplayPlayer;
}) {
  const isAlong = useSyncExternalStore(player.subscribe, () => goesAlong(player.get()));
  if (on === null) return null;
  if (notFollowed !== null) return <p role="alert">What is played now does not come in. {notFollowed}</p>;
  return (
    <div className={styles.goesOn}>
      <p role="status">
        {on === "here"
          ? "The lesson is on. What is played comes in as it is played"
          : "The lesson has not ended. What another window writes of it comes in here"}
        {isAlong ? ", and the cursor goes along." : "."}
      </p>
      {!isAlong && (
        <Button onPress={() => player.do({ kind: "put", at: player.get().seconds })}>Go along with it</Button>
      )}
    </div>
  );
}
