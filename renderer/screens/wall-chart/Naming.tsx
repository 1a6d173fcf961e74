import { useState } from "react";
import { chartList, chartName } from "../../../engine/rounds/index.ts";
import { useLesson } from "../../app/LessonContext.tsx";
import { useWatched } from "../../session/store.ts";
import { Button, Toggle } from "../../theme/index.ts";
import { AnswerLine } from "../round/AnswerLine.tsx";
import type { Typed } from "./besideRound.ts";
import styles from "./WallChart.module.css";
import { WhoseTurn } from "./WhoseTurn.tsx";

/** The chart is hidden: names are typed, or ticked off by the teacher while the student speaks. */
export function Naming() {
  const { framed } = useLesson();
  const round = framed["wall-chart"];
  const { own } = useWatched(round);
  const { typed } = useWatched(round.beside);
  const [text, setText] = useState("");
  const [isTicked, setIsTicked] = useState(false);
  if (own.stage.at !== "naming") return null;
  const { named, settings } = own.stage.look;
  const enter = (): void => {
    round.type(text);
    setText("");
  };
  return (
    <section aria-labelledby="naming">
      <h2 id="naming" className={styles.say}>
        {settings.task === "order" ? "Name them in order." : "Name as many as you can."}
      </h2>
      <WhoseTurn />
      <AnswerLine
        label="A name"
        hint="However it is spelt. Enter takes it; the next one follows."
        value={text}
        most={80}
        onChange={setText}
        onEnter={enter}
      />
      <div role="status" className={styles.typed}>
        <TypedSaid typed={typed} />
      </div>
      {typed.as === "unclear" && typed.perhaps.length > 0 && (
        <div className={styles.pages}>
          {typed.perhaps.map((id) => (
            <Button key={id} onPress={() => round.name(id, "typed", typed.given)}>
              {chartName(id)}
            </Button>
          ))}
        </div>
      )}
      <p>
        <b>{named.length}</b> so far{named.length > 0 ? ":" : "."}
      </p>
      <ol className={styles.named}>
        {named.map((id) => (
          <li key={id}>
            {chartName(id)}
            <Button
              weight="quiet"
              aria-label={`Take ${chartName(id)} back`}
              onPress={() => round.takeBack(id)}
            >
              take back
            </Button>
          </li>
        ))}
      </ol>
      <Toggle isOn={isTicked} onChange={setIsTicked}>
        I tick them off while they are said (the names are then on this page)
      </Toggle>
      {isTicked && (
        <fieldset className={styles.ticks}>
          <legend className="heard-only">Tick off</legend>
          {chartList(settings).map((id) => {
            const isNamed = named.includes(id);
            return (
              <Button
                key={id}
                aria-pressed={isNamed}
                isNow={isNamed}
                onPress={() => (isNamed ? round.takeBack(id) : round.name(id, "ticked"))}
              >
                {chartName(id)}
              </Button>
            );
          })}
        </fieldset>
      )}
    </section>
  );
}

function TypedSaid({ typed }: { readonly typed: Typed }) {
  switch (typed.as) {
    case "nothing":
      return null;
    case "named":
      return <p>{chartName(typed.entry)}.</p>;
    case "repeated":
      return <p>{chartName(typed.entry)}: named already.</p>;
    case "elsewhere":
      return <p>{chartName(typed.entry)} is a rudiment, and not of this part of the chart.</p>;
    case "unclear":
      return (
        <p>
          “{typed.given}”: {typed.perhaps.length > 0 ? "which of these?" : "that may be several."}
        </p>
      );
    case "none":
      return <p>“{typed.given}” is not one of them.</p>;
  }
}
