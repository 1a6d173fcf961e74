import { useEffect, useRef, useState } from "react";
import {
  type Calibration,
  COMPUTER_KEYS,
  OUTPUTS,
  type Output,
  outputName,
  type SetUp,
} from "../../../engine/kit/index.ts";
import { useProgram } from "../../app/ProgramContext.tsx";
import type { HeardKit } from "../../session/heardKit.ts";
import { useWatched } from "../../session/store.ts";
import { Button, Choice, NumberBox } from "../../theme/index.ts";
import styles from "./Kit.module.css";
import { latenessWords, measuredWords, microphoneWords, strikingWords } from "./latenessWords.ts";
import { MicrophoneMeasure } from "./measureByMicrophone.ts";
import { StrikingMeasure } from "./measureByStriking.ts";

const OUTPUT_CHOICES = OUTPUTS.map((id) => ({ id, name: outputName(id) }));

/** What is measured, and not yet kept. */
interface Found {
  readonly setUp: SetUp;
  readonly calibration: Calibration;
}

/** How late strikes come against the click: measured by striking, by microphone, or entered by hand. */
export function HowLate({ kit, onEnd }: { readonly kit: HeardKit; readonly onEnd: () => void }) {
  const { session, sound } = useProgram();
  const { output, trouble } = useWatched(session.setUps);
  const [byStriking] = useState(() => new StrikingMeasure(kit, sound));
  const [byMicrophone] = useState(() => new MicrophoneMeasure(kit, sound));
  const [isByHand, setIsByHand] = useState(false);
  const striking = useWatched(byStriking);
  const hearing = useWatched(byMicrophone);
  useEffect(
    () => () => {
      byStriking.stop();
      byMicrophone.stop();
    },
    [byStriking, byMicrophone],
  );
  const region = useRef<HTMLElement>(null);
  useEffect(() => region.current?.focus(), []);

  const setUp: SetUp = { input: kit.input ?? COMPUTER_KEYS, output };
  const found = foundOf(striking, hearing);
  const isBusy = striking.stage === "striking" || !["before", "heard", "trouble"].includes(hearing.stage);
  const reset = (): void => {
    byStriking.stop();
    byMicrophone.stop();
    setIsByHand(false);
  };
  const strike = (): void => {
    reset();
    byStriking.start();
  };
  const listen = (): void => {
    reset();
    void byMicrophone.start();
  };
  const keep = ({ setUp: measured, calibration }: Found): void => {
    session.setUps.keep(measured, calibration);
    reset();
  };
  const hearThrough = (through: Output): void => {
    session.setUps.hearThrough(through);
    sound.hearBy(through === "loudspeakers" ? "speakers" : "headphones");
  };
  return (
    <section ref={region} tabIndex={-1} className={styles.learn} aria-label="How late is this set-up?">
      <h2>How late is this set-up?</h2>
      <div role="status">
        <p className={styles.say}>
          {microphoneWords(hearing) ??
            strikingWords(striking) ??
            latenessWords(setUp, session.setUps.calibrationOf(setUp))}
        </p>
        {found && <p>{measuredWords(found.calibration)}</p>}
      </div>
      {!isBusy && !found && !isByHand && (
        <div className={styles.choice}>
          <Choice
            label="The click is heard through"
            options={OUTPUT_CHOICES}
            chosen={output}
            onChoose={hearThrough}
          />
        </div>
      )}
      {isByHand && (
        <ByHand
          known={session.setUps.calibrationOf(setUp)}
          onKeep={(calibration) => keep({ setUp, calibration })}
          onLeave={reset}
        />
      )}
      {trouble !== undefined && (
        <p role="alert" className={styles.trouble}>
          {trouble}
        </p>
      )}
      {!isByHand && (
        <div className={styles.choices}>
          {found && (
            <Button weight="go" onPress={() => keep(found)}>
              Keep it
            </Button>
          )}
          {isBusy ? (
            <Button onPress={reset}>Stop</Button>
          ) : (
            <>
              <Button weight={found ? "plain" : "go"} onPress={strike}>
                {striking.stage === "struck" ? "Strike again" : "Strike with the click"}
              </Button>
              <Button onPress={listen}>Let the microphone listen</Button>
              <Button onPress={() => setIsByHand(true)}>Enter it by hand</Button>
            </>
          )}
          {!isBusy && (
            <Button weight="quiet" onPress={onEnd}>
              {found ? "Leave it as it was" : "Done"}
            </Button>
          )}
        </div>
      )}
    </section>
  );
}

function foundOf(
  striking: ReturnType<StrikingMeasure["get"]>,
  hearing: ReturnType<MicrophoneMeasure["get"]>,
): Found | undefined {
  if (hearing.stage === "heard") {
    const { middleMs, giveOrTakeMs } = hearing.middle;
    return { setUp: hearing.setUp, calibration: { lateMs: middleMs, giveOrTakeMs, how: "microphone" } };
  }
  if (striking.stage === "struck" && striking.measured.kind === "measured") {
    const { middleMs, giveOrTakeMs } = striking.measured.middle;
    return { setUp: striking.setUp, calibration: { lateMs: middleMs, giveOrTakeMs, how: "strikes" } };
  }
  return undefined;
}

/** What a set-up of which nothing is known is taken to be good to, when a figure is entered. Our choice. */
const FIRST_GIVE_OR_TAKE_MS = 5;

function ByHand({
  known,
  onKeep,
  onLeave,
}: {
  readonly known: Calibration;
  readonly onKeep: (calibration: Calibration) => void;
  readonly onLeave: () => void;
}) {
  const [lateMs, setLateMs] = useState(Math.round(known.lateMs));
  const [giveOrTakeMs, setGiveOrTakeMs] = useState(Math.round(known.giveOrTakeMs ?? FIRST_GIVE_OR_TAKE_MS));
  return (
    <>
      <div className={styles.byHand}>
        <NumberBox
          label="Late by, milliseconds"
          value={lateMs}
          least={-300}
          most={500}
          onChange={setLateMs}
        />
        <NumberBox
          label="Give or take, milliseconds"
          value={giveOrTakeMs}
          least={0}
          most={100}
          onChange={setGiveOrTakeMs}
        />
      </div>
      <div className={styles.choices}>
        <Button weight="go" onPress={() => onKeep({ lateMs, giveOrTakeMs, how: "by-hand" })}>
          Keep it
        </Button>
        <Button weight="quiet" onPress={onLeave}>
          Leave it as it was
        </Button>
      </div>
    </>
  );
}
