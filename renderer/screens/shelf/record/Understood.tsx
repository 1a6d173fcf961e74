import { useMemo, useState } from "react";
import {
  bodyOf,
  EntryError,
  type EntryKind,
  kindName,
  readBody,
  type Written,
} from "../../../../engine/catalogue/index.ts";
import { GridError, type Groove, metreName, usualTempo } from "../../../../engine/score/index.ts";
import { useLesson } from "../../../app/LessonContext.tsx";
import { Note, Page } from "../../../app/Page.tsx";
import { BarRing, type PlayedMark } from "../../../charts/BarRing.tsx";
import { Button, Choice } from "../../../theme/index.ts";
import { begun, type Draft } from "../draft.ts";
import { EntryStaff } from "../EntryStaff.tsx";
import { barsWords } from "../entryWords.ts";
import { PlayIt } from "../PlayIt.tsx";
import styles from "../Shelf.module.css";
import { questions, type RecordStage, understoodGroove } from "./recordDesk.ts";
import { type Question, questionOf } from "./unsureWords.ts";

const RING_PIXELS = 300;
const NO_MARKS: readonly PlayedMark[] = [];
/** More questions are not answered, they are skipped: the rest is changed stroke by stroke. Our choice. */
const MOST_QUESTIONS = 8;

/** What was understood of a take, and what to make of it. */
export function Understood({ at }: { readonly at: RecordStage & { readonly stage: "understood" } }) {
  const { recordDesk, shelfDesk } = useLesson();
  const [trouble, setTrouble] = useState<string | null>(null);
  const { round, whole, unsure, unsureBeat } = at.written;
  const groove = useMemo(() => understoodGroove(at), [at]);
  const written = useMemo(
    (): Written =>
      at.chosen === "round"
        ? { kind: "groove", music: groove }
        : { kind: "phrase", music: { ...groove, role: "call" } },
    [at.chosen, groove],
  );
  const asked = questions(at);
  const keep = (kind: RecordedKind): void => {
    try {
      shelfDesk.show(draftOf(kind, groove, shelfDesk.newEntry()));
      recordDesk.again();
    } catch (error) {
      if (!(error instanceof GridError || error instanceof EntryError)) throw error;
      setTrouble(`It cannot be kept as a ${kindName(kind)}: ${error.message}`);
    }
  };
  return (
    <Page
      title="What I understood"
      sub={`${metreName(groove.metre)} · ${usualTempo(groove)} a minute · ${barsWords(whole.bars)} played`}
      takesFocus
      margin={
        <Note heading="Not quite it?">
          <p>
            Keep it all the same: stroke by stroke, or as text, everything can be changed before it is kept.
          </p>
          <p>
            <kbd>←</kbd> and <kbd>→</kbd> move the beat by half, with <kbd>Shift</kbd> by a whole one.
          </p>
        </Note>
      }
    >
      {trouble !== null && (
        <p role="alert" className={styles.trouble}>
          {trouble}
        </p>
      )}
      <div className={styles.look}>
        <BarRing
          groove={groove}
          played={NO_MARKS}
          handPlace={undefined}
          size={RING_PIXELS}
          label="What was played, written down"
        />
        <div className={styles.about}>
          <p className={styles.say}>
            {round
              ? `${barsWords(round.groove.bars)} came round: ${round.played} of ${round.outOf} bars play it.`
              : "Nothing came round: this is all of it, as it was played."}
          </p>
          {round && (
            <Choice
              label="Take"
              options={[
                { id: "round", name: `what came round, ${barsWords(round.groove.bars)}` },
                { id: "whole", name: `all of it, ${barsWords(whole.bars)}` },
              ]}
              chosen={at.chosen}
              onChoose={(chosen) => recordDesk.choose(chosen)}
            />
          )}
          <PlayIt written={written} />
        </div>
      </div>
      <EntryStaff written={written} label="What was played, written down" />
      {(asked.length > 0 || unsureBeat.between || unsureBeat.one) && (
        <section className={styles.section}>
          <h2>Where I am not sure</h2>
          {unsureBeat.between && <Move what="The beat lies" by="half a beat" beats={1 / 2} modifier={null} />}
          {unsureBeat.one && <Move what="The one lies" by="a beat" beats={1} modifier="Shift" />}
          {asked.slice(0, MOST_QUESTIONS).map((place, index) => (
            <Ask
              key={index}
              question={questionOf(place, whole)}
              isOtherwise={at.otherwise.has(index)}
              onAnswer={(isOtherwise) => recordDesk.answer(index, isOtherwise)}
            />
          ))}
          {unsure.length > MOST_QUESTIONS && (
            <p className={styles.hint}>
              {unsure.length - MOST_QUESTIONS} more are written as they most likely were.
            </p>
          )}
        </section>
      )}
      <div className={styles.foot}>
        <Button weight="go" onPress={() => keep("groove")}>
          Name it and keep it
        </Button>
        <Button onPress={() => keep("fill")}>as a fill</Button>
        <Button onPress={() => keep("phrase")}>as a phrase</Button>
        <Button weight="quiet" onPress={() => recordDesk.again()}>
          Play it again
        </Button>
        <Button
          weight="quiet"
          onPress={() => {
            recordDesk.again();
            shelfDesk.leave();
          }}
        >
          Back to the Shelf
        </Button>
      </div>
    </Page>
  );
}

/** Moves what is written along the beats; the arrow keys do the same. */
function Move({
  what,
  by,
  beats,
  modifier,
}: {
  readonly what: string;
  readonly by: string;
  readonly beats: number;
  readonly modifier: "Shift" | null;
}) {
  const { recordDesk } = useLesson();
  return (
    <fieldset className={styles.ask}>
      <legend>{what}</legend>
      {([-1, 1] as const).map((way) => (
        <span key={way} className={styles.row}>
          <Button weight="quiet" onPress={() => void recordDesk.move(way * beats)}>
            {by} {way < 0 ? "earlier" : "later"}
          </Button>
          {modifier !== null && <kbd>{modifier}</kbd>}
          <kbd>{way < 0 ? "←" : "→"}</kbd>
        </span>
      ))}
    </fieldset>
  );
}

/** One question, answered by one of two buttons; the written answer holds until another is given. */
function Ask({
  question,
  isOtherwise,
  onAnswer,
}: {
  readonly question: Question;
  readonly isOtherwise: boolean;
  readonly onAnswer: (isOtherwise: boolean) => void;
}) {
  return (
    <fieldset className={styles.ask}>
      <legend>{question.where}</legend>
      {[false, true].map((other) => (
        <label key={String(other)}>
          <input type="radio" checked={isOtherwise === other} onChange={() => onAnswer(other)} />
          {other ? question.otherwise : question.asWritten}
        </label>
      ))}
    </fieldset>
  );
}

type RecordedKind = Exclude<EntryKind, "part">;

/** What the text of each kind says before its strokes; it is changed when it is opened. */
const FIRST_LINES: Readonly<Record<RecordedKind, string>> = {
  groove: "",
  fill: "level: first-year\n",
  phrase: "role: call\n",
};

/** @throws GridError when it cannot be of that kind. */
function draftOf(kind: RecordedKind, groove: Groove, about: Pick<Draft, "id" | "madeAtMs">): Draft {
  const body = `${FIRST_LINES[kind]}${bodyOf({ kind: "groove", music: groove })}`;
  const written = readBody(kind, body, { id: about.id, name: "new" });
  const level = written.kind === "fill" ? written.music.level : null;
  const now = { name: "", alsoNamed: "", styleId: null, level, body };
  return begun({ ...about, kind, from: { kind: "recorded" } }, now, written);
}
