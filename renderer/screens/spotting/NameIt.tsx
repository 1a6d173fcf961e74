import { useState } from "react";
import {
  type Spottable,
  type SpottingQuestion,
  stillToName,
  thingKey,
} from "../../../engine/rounds/index.ts";
import { useLesson } from "../../app/LessonContext.tsx";
import { useWatched } from "../../session/store.ts";
import { Button } from "../../theme/index.ts";
import { NoKit } from "../kit/NoKit.tsx";
import { AnswerLine } from "../round/AnswerLine.tsx";
import { strokesWords } from "../round/strokesWords.ts";
import { useRoundKey } from "../round/useRoundKey.ts";
import { WhoAnswers } from "../round/WhoAnswers.tsx";
import styles from "./Spotting.module.css";
import { askedWords, statusWords } from "./spottingWords.ts";

/** Letters that play nothing and command nothing. */
const KEYS = {
  place: { code: "KeyW", shown: "W" },
  never: { code: "KeyV", shown: "V" },
  right: { code: "KeyM", shown: "M" },
  wrong: { code: "KeyX", shown: "X" },
} as const;

/** A question is open: a line for the name, and the answers that are no name. */
export function NameIt({ question }: { readonly question: SpottingQuestion }) {
  const { framed } = useLesson();
  const round = framed.spotting;
  const { own, stage } = useWatched(round);
  const isRunning = stage === "running";
  const place = (): void => round.answer({ way: "knows-place" });
  const never = (): void => round.answer({ way: "never-heard" });
  const aloud = (isRight: boolean): void => round.answer({ way: "aloud", isRight });
  useRoundKey(KEYS.place.code, isRunning ? place : null);
  useRoundKey(KEYS.never.code, isRunning ? never : null);
  useRoundKey(KEYS.right.code, isRunning ? () => aloud(true) : null);
  useRoundKey(KEYS.wrong.code, isRunning ? () => aloud(false) : null);
  const isTeachers = question.roles === "teacher-names";
  return (
    <section aria-labelledby="name-it" className={styles.nameIt}>
      <h2 id="name-it" className={styles.asked}>
        {askedWords(question, own.about)}
      </h2>
      <Status question={question} />
      <WhoOfSeveral question={question} />
      <NameLine question={question} />
      <div className={styles.answers}>
        <Button aria-keyshortcuts={KEYS.place.shown} onPress={place}>
          I know where it’s from, but not its name <kbd>{KEYS.place.shown}</kbd>
        </Button>
        <Button aria-keyshortcuts={KEYS.never.shown} onPress={never}>
          Never heard it <kbd>{KEYS.never.shown}</kbd>
        </Button>
      </div>
      <div className={styles.aloud}>
        <span className={styles.soft}>
          {isTeachers ? "Said aloud, and it was" : "The student says it aloud, and it is"}
        </span>
        <Button weight="quiet" aria-keyshortcuts={KEYS.right.shown} onPress={() => aloud(true)}>
          its name <kbd>{KEYS.right.shown}</kbd>
        </Button>
        <Button weight="quiet" aria-keyshortcuts={KEYS.wrong.shown} onPress={() => aloud(false)}>
          another <kbd>{KEYS.wrong.shown}</kbd>
        </Button>
        <Button weight="quiet" onPress={() => round.letBe()}>
          Leave it, ask another
        </Button>
      </div>
    </section>
  );
}

/** What is going on, in a sentence. */
function Status({ question }: { readonly question: SpottingQuestion }) {
  const { framed } = useLesson();
  const round = framed.spotting;
  const hearing = useWatched(round.hearing);
  const isSounding = useWatched(round.sounding);
  const { what, strokes } = hearing;
  const isToBeAsked = what === null && question.roles === "student-names";
  return (
    <div className={styles.status}>
      <p role="status">{statusWords(question, hearing, isSounding)}</p>
      {/* Seen at each stroke, and not read out at each. */}
      {!isSounding && strokes > 0 && <p className={styles.soft}>{strokesWords(strokes)}.</p>}
      {what === "question" && strokes === 0 && <NoKit />}
      {isToBeAsked && (
        <Button weight="quiet" onPress={() => round.playBack()}>
          Hear it played back
        </Button>
      )}
    </div>
  );
}

/** Where several answer the same question: whose answer this is. */
function WhoOfSeveral({ question }: { readonly question: SpottingQuestion }) {
  const { framed } = useLesson();
  const round = framed.spotting;
  useWatched(round.chosen);
  const { players } = round.get();
  if (players.length < 2 || question.roles === "teacher-names") return null;
  return (
    <WhoAnswers
      still={stillToName(question)}
      now={round.answerer()}
      onChoose={(id) => round.chosen.dispatch(id ?? undefined)}
    />
  );
}

/** What a line that was entered may mean, where it means no single thing. */
type Unclear =
  | { readonly kind: "ask"; readonly among: readonly Spottable[] }
  | { readonly kind: "none"; readonly said: string };

/** The name, however it is spelt. */
function NameLine({ question }: { readonly question: SpottingQuestion }) {
  const { framed } = useLesson();
  const round = framed.spotting;
  const [typed, setTyped] = useState("");
  const [unclear, setUnclear] = useState<Unclear | null>(null);
  const names = round.names(question);
  const said = typed.trim();
  const give = (spottable: Spottable): void => {
    setTyped("");
    setUnclear(null);
    round.answer({ way: "named", thing: spottable.thing, said: said === "" ? spottable.thing.name : said });
  };
  const enter = (): void => {
    if (said === "") return;
    if (unclear?.kind === "none" && unclear.said === said) {
      setTyped("");
      setUnclear(null);
      round.answer({ way: "other-name", said });
      return;
    }
    const match = names.match(said);
    if (match.kind === "named") give(match.spottable);
    else setUnclear(match.kind === "ask" ? match : { kind: "none", said });
  };
  const offered = unclear?.kind === "ask" ? unclear.among : names.offered(said);
  return (
    <div className={styles.line}>
      <AnswerLine
        label="Its name"
        hint="However it is spelt. Enter answers."
        value={typed}
        most={120}
        onChange={(next) => {
          setTyped(next);
          setUnclear(null);
        }}
        onEnter={enter}
      />
      <p role="status" className={styles.unclear}>
        {unclear?.kind === "none" &&
          `I know nothing called “${unclear.said}”. Enter once more counts it as the answer.`}
        {unclear?.kind === "ask" && "Which of these is meant?"}
      </p>
      {offered.length > 0 && (
        <ul className={styles.offered} aria-label="Names that may be meant">
          {offered.map((each) => (
            <li key={thingKey(each.thing)}>
              <Button onPress={() => give(each)}>{each.thing.name}</Button>
            </li>
          ))}
        </ul>
      )}
    </div>
  );
}
