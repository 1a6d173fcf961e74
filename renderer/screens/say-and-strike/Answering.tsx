import { useState } from "react";
import { type Call, stillToStrike } from "../../../engine/rounds/index.ts";
import { useLesson } from "../../app/LessonContext.tsx";
import { useWatched } from "../../session/store.ts";
import { Button } from "../../theme/index.ts";
import { AnswerLine } from "../round/AnswerLine.tsx";
import { usePlayerName } from "../round/usePlayerName.ts";
import { useRoundKey } from "../round/useRoundKey.ts";
import { WhoAnswers } from "../round/WhoAnswers.tsx";
import { Trouble } from "./Calling.tsx";
import styles from "./SayAndStrike.module.css";
import { FEWEST_LEARNT, VoicesLearnt } from "./VoicesLearnt.tsx";

const BACK_KEY = { code: "KeyO", shown: "O" };

/** A call is open: it is struck, or said back. What it was is not shown. */
export function Answering({ call }: { readonly call: Call }) {
  return call.roles === "student-says" ? <SayBack call={call} /> : <StrikeIt call={call} />;
}

function StrikeIt({ call }: { readonly call: Call }) {
  const { framed } = useLesson();
  const round = framed["say-and-strike"];
  const { answering } = useWatched(round.doing);
  const nameOf = usePlayerName();
  const of = useAskedName(call);
  const areSeated = call.of.length > 1 && round.isSeated();
  return (
    <section aria-labelledby="strike-it" className={styles.part}>
      <h2 id="strike-it" className={styles.asked}>
        {of}Strike what was said.
      </h2>
      {!areSeated && <WhoOfSeveral call={call} />}
      <div role="status" className={styles.status}>
        {[...answering].map(([player, count]) => (
          <p key={player}>
            {areSeated && `${nameOf(player)}: `}
            {count === 0 ? "In your own tempo, when you are ready." : "I am listening. A silence ends it."}
          </p>
        ))}
        <Answered call={call} />
      </div>
    </section>
  );
}

/** Of several, those who have answered; how it went is told once all have. */
function Answered({ call }: { readonly call: Call }) {
  const nameOf = usePlayerName();
  if (call.answers.length === 0) return null;
  return <p className={styles.soft}>Answered: {call.answers.map(({ by }) => nameOf(by)).join(", ")}.</p>;
}

/** Whose answer it is, where several are waited for one after the other. */
function WhoOfSeveral({ call }: { readonly call: Call }) {
  const { framed } = useLesson();
  const round = framed["say-and-strike"];
  useWatched(round.doing);
  if (call.of.length < 2) return null;
  return (
    <WhoAnswers
      still={stillToStrike(call)}
      now={round.answerer()}
      onChoose={(player) => round.choose(player)}
    />
  );
}

/** "Ottilie: " where several play and one is asked. */
function useAskedName(call: Call): string {
  const { framed } = useLesson();
  const { players } = useWatched(framed["say-and-strike"]);
  const nameOf = usePlayerName();
  const [by] = call.of;
  return call.of.length === 1 && by !== undefined && by !== null && players.length > 1
    ? `${nameOf(by)}: `
    : "";
}

function SayBack({ call }: { readonly call: Call }) {
  const { framed } = useLesson();
  const round = framed["say-and-strike"];
  const { stage } = useWatched(round);
  useWatched(round.ear);
  useWatched(round.doing);
  const of = useAskedName(call);
  const [typed, setTyped] = useState("");
  const canHear = round.ear.known(round.speaker()).length >= FEWEST_LEARNT;
  const say = (): void => void round.sayBack();
  useRoundKey(BACK_KEY.code, stage === "running" && canHear ? say : null);
  return (
    <section aria-labelledby="say-it" className={styles.part}>
      <h2 id="say-it" className={styles.asked}>
        {of}Say what was struck.
      </h2>
      <WhoOfSeveral call={call} />
      <Answered call={call} />
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
        <AnswerLine
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
