import { useState } from "react";
import { Note } from "../../app/Page.tsx";
import { useStudio } from "../../app/StudioContext.tsx";
import { useWatched } from "../../session/store.ts";
import { Button, TextBox } from "../../theme/index.ts";
import { lessonHref } from "../replay/replayPlace.ts";
import styles from "./Desk.module.css";
import { lessonClock } from "./deskWords.ts";

/** Flagged moments and remarks of the lesson that is on: written here, withdrawn here, heard again in Replay. */
export function LessonRemarks() {
  const { book } = useStudio();
  const { remarks, began } = useWatched(book.log);
  const [text, setText] = useState("");
  const keep = (): void => {
    if (text.trim() === "") return;
    book.remark(text.trim());
    setText("");
  };
  const flagged = remarks.filter((remark) => remark.flagged);
  return (
    <>
      {began && flagged.length > 0 && (
        <Note heading="Flagged">
          <ul className={styles.flags}>
            {flagged.map(({ remarkId, time, text: words }) => (
              <li key={remarkId} className={styles.remark}>
                <a href={lessonHref(began.lessonId, time)}>at {lessonClock(time)}</a>
                {words !== "" && `“${words}”`}
                <Withdraw remarkId={remarkId} what={`the flag at ${lessonClock(time)}`} />
              </li>
            ))}
          </ul>
        </Note>
      )}
      <Note heading="Remarks">
        {remarks
          .filter((remark) => !remark.flagged)
          .map(({ remarkId, text: words, time }) => (
            <p key={remarkId} className={styles.remark}>
              “{words}” at {lessonClock(time)}
              <Withdraw remarkId={remarkId} what={`the remark at ${lessonClock(time)}`} />
            </p>
          ))}
        <TextBox label="A remark about now" value={text} most={2000} onChange={setText} onEnter={keep} />
        <Button weight="quiet" isDisabled={text.trim() === ""} onPress={keep}>
          Keep the remark
        </Button>
      </Note>
    </>
  );
}

function Withdraw({ remarkId, what }: { readonly remarkId: string; readonly what: string }) {
  const { book } = useStudio();
  return (
    <Button
      weight="quiet"
      aria-label={`Withdraw ${what}`}
      onPress={() => book.log.add({ kind: "remark-withdrawn", remarkId })}
    >
      withdraw
    </Button>
  );
}
