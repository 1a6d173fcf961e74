import { useState } from "react";
import {
  type Moment,
  momentsWords,
  type Sounded,
  surfaceCalled,
  surfaceName,
  TOUCHES,
  type Touch,
} from "../../../engine/ear/index.ts";
import { stillToAnswer } from "../../../engine/rounds/index.ts";
import { useLesson } from "../../app/LessonContext.tsx";
import { useWatched } from "../../session/store.ts";
import { Button, TextBox } from "../../theme/index.ts";
import { WhoAnswers } from "../round/WhoAnswers.tsx";
import styles from "./BackTurned.module.css";
import { askedWords, isTogether } from "./backTurnedWords.ts";

/** A question is open: names to press, a line to type on, and what was given so far. */
export function Asked() {
  const { framed } = useLesson();
  const round = framed["back-turned"];
  const { own } = useWatched(round);
  const { moments } = useWatched(round.collecting);
  const { question } = own;
  if (!question) return null;
  const touches: readonly (Touch | null)[] = round.rung()?.touch ? TOUCHES : [null];
  const give = (sounded: Sounded): void => {
    const given = withOneMore(moments, sounded, isTogether(question.moments));
    const isWhole =
      given.length >= question.moments.length &&
      given.every((moment, place) => moment.length >= (question.moments[place]?.length ?? 1));
    if (isWhole) round.answer(given, "named");
    else round.name(given);
  };
  return (
    <section aria-labelledby="asked">
      <h2 id="asked" className={styles.say}>
        {askedWords(question)}
      </h2>
      <WhoOfSeveral />
      <p role="status" className={styles.given}>
        {moments.length > 0 ? momentsWords(moments) : "Say it, press it, type it, or strike it."}
        {moments.length > 0 && (
          <Button weight="quiet" onPress={() => round.name(moments.slice(0, -1))}>
            Take the last back
          </Button>
        )}
      </p>
      <div className={styles.names}>
        {round.names().flatMap((surface) =>
          touches.map((touch) => (
            <Button
              key={`${touch} ${surface}`}
              onPress={() => give(touch === null ? { surface } : { surface, touch })}
            >
              {touch === null ? surfaceName(surface) : `${touch} ${surfaceName(surface)}`}
            </Button>
          )),
        )}
      </div>
      {touches.length === 1 && <Typed />}
    </section>
  );
}

/** Two at once are named one after the other. */
function withOneMore(given: readonly Moment[], sounded: Sounded, inPairs: boolean): readonly Moment[] {
  const last = given.at(-1);
  return inPairs && last?.length === 1 ? [...given.slice(0, -1), [...last, sounded]] : [...given, [sounded]];
}

/** Where several answer the same question: whose answer this is. */
function WhoOfSeveral() {
  const { framed } = useLesson();
  const round = framed["back-turned"];
  const { own, players } = useWatched(round);
  useWatched(round.chosen);
  const { question } = own;
  if (!question || players.length < 2) return null;
  return (
    <WhoAnswers
      still={stillToAnswer(question)}
      now={round.answerer()}
      onChoose={(id) => round.chosen.dispatch(id ?? undefined)}
    />
  );
}

/** Names typed, with commas between moments and "and" between two at once. */
function Typed() {
  const { framed } = useLesson();
  const round = framed["back-turned"];
  const [text, setText] = useState("");
  const [unknown, setUnknown] = useState<string | null>(null);
  const enter = (): void => {
    if (text.trim() === "") return;
    const read = readNames(text);
    if (read.kind === "unknown") {
      setUnknown(read.name);
      return;
    }
    setText("");
    setUnknown(null);
    round.answer(read.moments, "typed");
  };
  return (
    <div className={styles.typed}>
      <TextBox
        label="Or type it"
        hint="A comma between one and the next, “and” between two at once. Enter answers."
        value={text}
        most={300}
        onChange={setText}
        onEnter={enter}
      />
      <p role="status">{unknown !== null && `“${unknown}” is no surface I know. Nothing was answered.`}</p>
    </div>
  );
}

type Read =
  | { readonly kind: "read"; readonly moments: readonly Moment[] }
  | { readonly kind: "unknown"; readonly name: string };

function readNames(text: string): Read {
  const moments: Moment[] = [];
  for (const part of text.split(",").filter((each) => each.trim() !== "")) {
    const moment: Sounded[] = [];
    for (const name of part.split(/\band\b|\+/)) {
      const surface = surfaceCalled(name);
      if (surface === null) return { kind: "unknown", name: name.trim() };
      moment.push({ surface });
    }
    moments.push(moment.slice(0, 2));
  }
  return { kind: "read", moments: moments.slice(0, 8) };
}
