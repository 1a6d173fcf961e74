import { useState } from "react";
import { rudimentById } from "../../../engine/catalogue/index.ts";
import { useLesson } from "../../app/LessonContext.tsx";
import { useWatched } from "../../session/store.ts";
import { Button } from "../../theme/index.ts";
import { NoKit } from "../kit/NoKit.tsx";
import { AnswerLine } from "../round/AnswerLine.tsx";
import { strokesWords } from "../round/strokesWords.ts";
import { HandPadsNote } from "./HandPadsNote.tsx";
import styles from "./WallChart.module.css";
import { WhoseTurn } from "./WhoseTurn.tsx";

/** One rudiment is asked for its hands. */
export function Asked() {
  const { framed } = useLesson();
  const { own } = useWatched(framed["wall-chart"]);
  if (own.stage.at !== "asked") return null;
  const name = rudimentById(own.stage.entry)?.name;
  return (
    <section aria-labelledby="asked">
      <h2 id="asked" className={styles.say}>
        {name}
      </h2>
      <WhoseTurn />
      {own.settings.task === "played" ? <ToPlay /> : <ToSay key={own.stage.by} />}
    </section>
  );
}

function ToSay() {
  const { framed } = useLesson();
  const round = framed["wall-chart"];
  const { offered } = useWatched(round.beside);
  const [text, setText] = useState("");
  return (
    <>
      <p>Which hands? Choose, type them, or say them.</p>
      <div className={styles.stickings}>
        {offered.map((sticking) => (
          <Button key={sticking} onPress={() => round.choose(sticking)}>
            {sticking}
          </Button>
        ))}
      </div>
      <AnswerLine
        label="Or type the hands"
        hint="R and L; grace strokes small before, or left out. Enter answers."
        value={text}
        most={80}
        onChange={setText}
        onEnter={() => round.typeSticking(text)}
      />
      <div className={styles.pages}>
        <Button onPress={() => round.heardSaid(true)}>Said rightly</Button>
        <Button onPress={() => round.heardSaid(false)}>Said otherwise</Button>
      </div>
    </>
  );
}

function ToPlay() {
  const { framed } = useLesson();
  const round = framed["wall-chart"];
  const { played, earlier, trouble } = useWatched(round.beside);
  const { L, R } = useWatched(round.hands);
  return (
    <>
      <p>Play it again and again: begin slowly, grow faster, and come back.</p>
      {(L === null || R === null) && <HandPadsNote />}
      <NoKit />
      <p role="status">{trouble}</p>
      {trouble === null && (
        <p>
          {played.length === 0
            ? "Nothing was struck on the two pads yet."
            : `${strokesWords(played.length)} so far.`}
        </p>
      )}
      {earlier > 0 && (
        <p>
          {earlier} of them were struck before the program was opened again. <i>From its beginning</i> leaves
          them out.
        </p>
      )}
    </>
  );
}
