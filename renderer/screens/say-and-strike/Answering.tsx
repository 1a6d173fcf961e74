import { useState } from "react";
import type { Call } from "../../../engine/rounds/index.ts";
import { useLesson } from "../../app/LessonContext.tsx";
import { useWatched } from "../../session/store.ts";
import { Button, TextBox } from "../../theme/index.ts";
import { usePlayerName } from "../round/usePlayerName.ts";
import { useRoundKey } from "../round/useRoundKey.ts";
import { Trouble } from "./Calling.tsx";
import styles from "./SayAndStrike.module.css";
import { FEWEST_LEARNT, VoicesLearnt } from "./VoicesLearnt.tsx";

const BACK_KEY = { code: "KeyO", shown: "O" };

/** A call is open: it is struck, or said back. What it was is not shown. */
export function Answering({ call }: { readonly call: Call }) {
  const { framed } = useLesson();
  const round = framed["say-and-strike"];
  const { players } = useWatched(round);
  const { count } = useWatched(round.doing);
  const nameOf = usePlayerName();
  const by = round.answerer();
  const who = by !== null && players.length > 1 ? `${nameOf(by)}: ` : "";
  if (call.roles === "student-says") return <SayBack who={who} />;
  return (
    <section aria-labelledby="strike-it">
      <h2 id="strike-it" className={styles.asked}>
        {who}Strike what was said.
      </h2>
      <p role="status" className={styles.status}>
        {count === 0 ? "In your own tempo, when you are ready." : "I am listening. A silence ends it."}
      </p>
    </section>
  );
}

function SayBack({ who }: { readonly who: string }) {
  const { framed } = useLesson();
  const round = framed["say-and-strike"];
  const { stage } = useWatched(round);
  useWatched(round.ear);
  const [typed, setTyped] = useState("");
  const canHear = round.ear.known(round.speaker()).length >= FEWEST_LEARNT;
  const say = (): void => void round.sayBack();
  useRoundKey(BACK_KEY.code, stage === "running" && canHear ? say : null);
  return (
    <section aria-labelledby="say-it" className={styles.part}>
      <h2 id="say-it" className={styles.asked}>
        {who}Say what was struck.
      </h2>
      <Trouble />
      <p className={styles.row}>
        <Button isDisabled={!canHear} aria-keyshortcuts={BACK_KEY.shown} onPress={say}>
          Say it <kbd>{BACK_KEY.shown}</kbd>
        </Button>
        {!canHear && (
          <span className={styles.soft}>Once I know this voice, below; or type what is said.</span>
        )}
      </p>
      <div className={styles.typed}>
        <TextBox
          label="Or type it"
          value={typed}
          hint="A beat each, brackets share a beat, - rests."
          most={200}
          onChange={setTyped}
          onEnter={() => round.typeBack(typed)}
        />
        <Button isDisabled={typed.trim() === ""} onPress={() => round.typeBack(typed)}>
          That is it
        </Button>
      </div>
      <VoicesLearnt />
    </section>
  );
}
