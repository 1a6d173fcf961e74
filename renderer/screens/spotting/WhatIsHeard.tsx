import { useState } from "react";
import { isNameDue, type Spottable, thingKey } from "../../../engine/rounds/index.ts";
import { useLesson } from "../../app/LessonContext.tsx";
import { Note } from "../../app/Page.tsx";
import { useWatched } from "../../session/store.ts";
import { Button, TextBox } from "../../theme/index.ts";
import { useRoundKey } from "../round/useRoundKey.ts";
import styles from "./Spotting.module.css";
import { keyWords } from "./spottingWords.ts";

const SHOW_KEY = { code: "KeyI", shown: "I" };

/** What the kit that asks is heard to play, for whoever plays it: hidden until asked for, while the name is still due. */
export function WhatIsHeard() {
  const { framed } = useLesson();
  const round = framed.spotting;
  const { own, stage } = useWatched(round);
  const [isShown, setShown] = useState(false);
  const { question } = own;
  const isOfKit = question !== null && question.key.by !== "program" && stage === "running";
  useRoundKey(SHOW_KEY.code, isOfKit ? () => setShown(!isShown) : null);
  if (!isOfKit || question.isSettled) return null;
  const isDue = isNameDue(question);
  if (isDue && !isShown)
    return (
      <Note heading="What I hear">
        <Button weight="quiet" aria-keyshortcuts={SHOW_KEY.shown} onPress={() => setShown(true)}>
          Show it to whoever plays <kbd>{SHOW_KEY.shown}</kbd>
        </Button>
      </Note>
    );
  return (
    <Note heading="What I hear">
      <p role="status">{keyWords(question.key)}</p>
      <Overrule />
      {isDue && (
        <Button weight="quiet" aria-keyshortcuts={SHOW_KEY.shown} onPress={() => setShown(false)}>
          Hide it <kbd>{SHOW_KEY.shown}</kbd>
        </Button>
      )}
    </Note>
  );
}

/** It was something else: who played it knows. */
function Overrule() {
  const { framed } = useLesson();
  const round = framed.spotting;
  const { own } = useWatched(round);
  const [typed, setTyped] = useState("");
  const [unknown, setUnknown] = useState<string | null>(null);
  if (!own.question) return null;
  const names = round.names(own.question);
  const offered = names.offered(typed).slice(0, MOST_OFFERED);
  const give = ({ thing }: Spottable): void => {
    setTyped("");
    setUnknown(null);
    round.overrule(thing);
  };
  const enter = (): void => {
    const said = typed.trim();
    if (said === "") return;
    const match = names.match(said);
    if (match.kind === "named") give(match.spottable);
    else setUnknown(said);
  };
  return (
    <>
      <TextBox
        label="It was something else"
        value={typed}
        most={120}
        onChange={(next) => {
          setTyped(next);
          setUnknown(null);
        }}
        onEnter={enter}
      />
      <p role="status">{unknown !== null && `“${unknown}” is no one name I know.`}</p>
      {offered.length > 0 && (
        <ul className={styles.offered} aria-label="What it may have been">
          {offered.map((each) => (
            <li key={thingKey(each.thing)}>
              <Button onPress={() => give(each)}>{each.thing.name}</Button>
            </li>
          ))}
        </ul>
      )}
    </>
  );
}

/** The margin is narrow. */
const MOST_OFFERED = 3;
