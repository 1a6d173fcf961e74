import { useEffect, useRef, useState } from "react";
import { NO_TAPS, tapped, tappedBpm } from "../../../engine/listening/index.ts";
import type { Asked } from "../../../engine/rounds/index.ts";
import { useLesson } from "../../app/LessonContext.tsx";
import { useProgram } from "../../app/ProgramContext.tsx";
import { onHandStrikes } from "../../session/handStrikes.ts";
import { NumberBox, Toggle } from "../../theme/index.ts";
import styles from "./CallAStyle.module.css";

const SLOWEST_BPM = 30;
const FASTEST_BPM = 300;

/** Whether there is a click, and at which tempo; how it goes stands in the margin. */
export function ClickControls({ asked }: { readonly asked: Asked }) {
  const { round } = useLesson();
  return (
    <div className={styles.click}>
      <Toggle isOn={asked.click} onChange={(click) => round.dispatch({ kind: "set", to: { click } })}>
        Click
      </Toggle>
      {asked.click && (
        <>
          <Toggle
            isOn={asked.countIn}
            onChange={(countIn) => round.dispatch({ kind: "set", to: { countIn } })}
          >
            Count in, one bar
          </Toggle>
          <NumberBox
            label="Click, beats a minute"
            value={asked.tempoBpm}
            least={SLOWEST_BPM}
            most={FASTEST_BPM}
            onChange={(tempoBpm) => round.dispatch({ kind: "set", to: { tempoBpm } })}
          />
          <SetByStriking onTempo={(tempoBpm) => round.dispatch({ kind: "set", to: { tempoBpm } })} />
        </>
      )}
    </div>
  );
}

/** While it is on, strikes on any pad of any kit, or on the letters, set the tempo. */
function SetByStriking({ onTempo }: { readonly onTempo: (tempoBpm: number) => void }) {
  const [isOn, setIsOn] = useState(false);
  const struck = useStruckTempo(isOn, onTempo);
  return (
    <div className={styles.tap}>
      <Toggle isOn={isOn} onChange={setIsOn}>
        Set by striking
      </Toggle>
      <p role="status" className={styles.tapped}>
        {isOn && (struck === null ? "Strike the beat, three times or more." : `Struck: ${struck} a minute.`)}
      </p>
    </div>
  );
}

/** The tempo that is being struck; `null` while too little was. */
function useStruckTempo(isOn: boolean, onTempo: (tempoBpm: number) => void): number | null {
  const { session } = useProgram();
  const [struck, setStruck] = useState<number | null>(null);
  const tell = useRef(onTempo);
  useEffect(() => {
    tell.current = onTempo;
  });
  useEffect(() => {
    setStruck(null);
    if (!isOn) return;
    // Strikes on two kits are no beat together: each kit's are followed by themselves.
    const taps = session.kits.map(() => NO_TAPS);
    const logs = session.kits.map(({ log }) => log);
    return onHandStrikes(logs, (hits, kit) => {
      const ofKit = hits.reduce((before, { time }) => tapped(before, time), taps[kit] ?? NO_TAPS);
      taps[kit] = ofKit;
      const bpm = tappedBpm(ofKit);
      if (bpm === null) return setStruck(null);
      const tempoBpm = Math.min(Math.max(Math.round(bpm), SLOWEST_BPM), FASTEST_BPM);
      setStruck(tempoBpm);
      tell.current(tempoBpm);
    });
  }, [isOn, session]);
  return struck;
}
