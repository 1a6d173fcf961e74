/** The controls of the playhead: play, speed, loop, near and far, where the cursor stands, the take to be taken along. */
import { useSyncExternalStore } from "react";
import type { TakeState } from "../../../engine/session/index.ts";
import { useWatched } from "../../session/store.ts";
import { Button, Choice } from "../../theme/index.ts";
import { copyLink, loopTake } from "./actOn.ts";
import { RATES } from "./playhead.ts";
import styles from "./replay.module.css";
import type { OpenLesson } from "./replayDesk.ts";
import type { ReplayPlayer } from "./replayPlayer.ts";
import { momentWords, takeShort } from "./replayWords.ts";
import { TakeAlong } from "./TakeAlong.tsx";
import type { TakeAgain } from "./takeAgain.ts";

const RATE_OPTIONS = RATES.map((rate) => ({
  id: String(rate),
  name: rate === 1 ? "as played" : `× ${rate}`,
}));

export interface TransportProps {
  readonly lesson: OpenLesson;
  readonly player: ReplayPlayer;
  readonly take: TakeState | undefined;
  readonly again: TakeAgain | undefined;
  readonly onCopied: (words: string) => void;
}

export function Transport({ lesson, player, take, again, onCopied }: TransportProps) {
  const isPlaying = useSyncExternalStore(player.subscribe, () => player.get().isPlaying);
  const rate = useSyncExternalStore(player.subscribe, () => player.get().rate);
  const loop = useSyncExternalStore(player.subscribe, () => player.get().loop);
  return (
    <div className={styles.transport}>
      <Button weight="go" onPress={() => player.toggle()}>
        {isPlaying ? "Stop" : "Play"}
      </Button>
      <Clock player={player} />
      <Choice
        label="Speed"
        options={RATE_OPTIONS}
        chosen={String(rate)}
        onChoose={(id) => player.do({ kind: "rate", rate: Number(id) })}
      />
      <fieldset className={styles.group}>
        <legend>Loop</legend>
        <Button onPress={() => player.do({ kind: "loop-from" })}>From here</Button>
        <Button onPress={() => player.do({ kind: "loop-to" })}>To here</Button>
        <Button onPress={() => loopTake({ player, lesson, take })} isDisabled={!loop && !take}>
          {loop ? "None" : "The take"}
        </Button>
      </fieldset>
      <fieldset className={styles.group}>
        <legend>Look</legend>
        <Button aria-label="Nearer" onPress={() => player.do({ kind: "nearer" })}>
          +
        </Button>
        <Button aria-label="Further" onPress={() => player.do({ kind: "further" })}>
          −
        </Button>
      </fieldset>
      <Button
        weight="quiet"
        onPress={() => void copyLink(lesson.lessonId, player.get().cursor).then(onCopied)}
      >
        Copy the link
      </Button>
      {again && take && <TakeAlong lesson={lesson} again={again} of={takeShort(take)} />}
      {loop && (
        <p className={styles.looped}>
          Looped: {momentWords(loop.from, 1)} to {momentWords(loop.to, 1)}.
        </p>
      )}
    </div>
  );
}

/** Where the cursor stands. Written anew with every picture: it is to be seen, the slider tells it. */
function Clock({ player }: { readonly player: ReplayPlayer }) {
  const { cursor, seconds } = useWatched(player);
  return (
    <p className={styles.clock} aria-hidden="true">
      <b>{momentWords(cursor, 2)}</b> of {momentWords(seconds)}
    </p>
  );
}
