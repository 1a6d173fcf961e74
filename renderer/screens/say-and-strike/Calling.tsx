import { useState } from "react";
import { useLesson } from "../../app/LessonContext.tsx";
import { useProgram } from "../../app/ProgramContext.tsx";
import { useWatched } from "../../session/store.ts";
import { Button, NumberBox } from "../../theme/index.ts";
import { AnswerLine } from "../round/AnswerLine.tsx";
import { useRoundKey } from "../round/useRoundKey.ts";
import styles from "./SayAndStrike.module.css";
import { FEWEST_LEARNT } from "./VoicesLearnt.tsx";

const MYSELF_KEY = { code: "KeyO", shown: "O" };

/** Where the next phrase comes from: the program, a line, a voice, or a kit. */
export function Calling() {
  const { framed } = useLesson();
  const round = framed["say-and-strike"];
  const { own, stage } = useWatched(round);
  const isSaid = own.roles === "student-strikes";
  useWatched(round.ear);
  const canHear = round.ear.known(round.speaker()).length >= FEWEST_LEARNT;
  const myself = isSaid ? () => void round.sayMyself() : () => round.strikeCall();
  const isOffered = stage === "running" && (!isSaid || canHear);
  useRoundKey(MYSELF_KEY.code, isOffered ? myself : null);
  return (
    <section aria-labelledby="calling" className={styles.part}>
      <h2 id="calling">{isSaid ? "The next phrase" : "What is struck next"}</h2>
      <Trouble />
      {isSaid && <TypedPhrase />}
      <p className={styles.row}>
        <Button isDisabled={!isOffered} aria-keyshortcuts={MYSELF_KEY.shown} onPress={myself}>
          {isSaid ? "I say it" : "I strike it"} <kbd>{MYSELF_KEY.shown}</kbd>
        </Button>
        {isSaid && !canHear && (
          <span className={styles.soft}>Once I know your voice, below. Until then the program says it.</span>
        )}
      </p>
    </section>
  );
}

/** What stood in the way of hearing, or of reading a line. */
export function Trouble() {
  const { framed } = useLesson();
  const round = framed["say-and-strike"];
  const { trouble } = useWatched(round.doing);
  const { trouble: unheard } = useWatched(round.ear);
  const said = trouble ?? unheard;
  return said === null ? null : (
    <p role="alert" className={styles.trouble}>
      {said}
    </p>
  );
}

function TypedPhrase() {
  const { framed } = useLesson();
  const { syllables } = useProgram();
  const round = framed["say-and-strike"];
  const tempo = useWatched(round.tempo);
  const [first, second] = useWatched(syllables).syllables;
  const [typed, setTyped] = useState("");
  return (
    <div className={styles.typed}>
      <AnswerLine
        label="Type a phrase"
        value={typed}
        hint={`A beat each: ${first?.text} ${second?.text} - (${second?.text} ${second?.text}). Brackets share a beat, - rests. Or count: 1 (2) and 3.`}
        most={200}
        onChange={setTyped}
        onEnter={() => round.sayTyped(typed)}
      />
      <NumberBox
        label="Beats a minute"
        value={tempo}
        least={40}
        most={160}
        onChange={(next) => round.tempo.dispatch(next)}
      />
      <Button isDisabled={typed.trim() === ""} onPress={() => round.sayTyped(typed)}>
        Say this
      </Button>
    </div>
  );
}
