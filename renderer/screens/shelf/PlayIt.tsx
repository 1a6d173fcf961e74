import { useEffect, useState } from "react";
import { inBars, type Written } from "../../../engine/catalogue/index.ts";
import { usualTempo } from "../../../engine/score/index.ts";
import { useProgram } from "../../app/ProgramContext.tsx";
import type { Playing } from "../../audio/strokePlayer.ts";
import { useWatched } from "../../session/store.ts";
import { Button } from "../../theme/index.ts";
import { playedStrokes } from "./playedStrokes.ts";
import styles from "./Shelf.module.css";

/** Slow enough to hear every stroke for itself. Our choice. */
const SLOW_SHARE = 0.6;

/** Sounds what is written, at its usual tempo or slowly; a groove goes round until it is stopped. */
export function PlayIt({ written }: { readonly written: Written }) {
  const { sound } = useProgram();
  const { trouble } = useWatched(sound);
  const [playing, setPlaying] = useState<Playing | null>(null);
  // What plays is what is shown: another page, or another text, ends it.
  useEffect(() => () => playing?.stop(), [playing]);
  const play = (speed: number): void => {
    const { strokes, seconds } = playedStrokes(written, speed);
    setPlaying(sound.playStrokes(strokes, written.kind === "groove" ? { loopSeconds: seconds } : {}));
  };
  const usual = written.kind === "part" ? undefined : usualTempo(inBars(written));
  return (
    <div>
      <div className={styles.row}>
        <Button onPress={() => play(1)}>{usual === undefined ? "Play" : `Play at ${usual}`}</Button>
        <Button onPress={() => play(SLOW_SHARE)}>
          {usual === undefined ? "Slowly" : `Slowly, at ${Math.round(usual * SLOW_SHARE)}`}
        </Button>
        <Button weight="quiet" isDisabled={playing === null} onPress={() => setPlaying(null)}>
          Stop
        </Button>
      </div>
      {trouble !== undefined && (
        <p role="alert" className={styles.trouble}>
          {trouble}
        </p>
      )}
    </div>
  );
}
