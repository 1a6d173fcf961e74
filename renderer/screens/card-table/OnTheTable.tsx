import { useState } from "react";
import {
  type CardOutcome,
  cardName,
  faceOf,
  isCardOpen,
  isNamed,
  type OpenCard,
} from "../../../engine/rounds/index.ts";
import { useLesson } from "../../app/LessonContext.tsx";
import { useStudio } from "../../app/StudioContext.tsx";
import { useWatched } from "../../session/store.ts";
import { Button } from "../../theme/index.ts";
import { NoKit } from "../kit/NoKit.tsx";
import { AnswerLine } from "../round/AnswerLine.tsx";
import { strokesWords } from "../round/strokesWords.ts";
import { useRoundKey } from "../round/useRoundKey.ts";
import { CardFace } from "./CardFace.tsx";
import styles from "./CardTable.module.css";
import { answeredWords, cardTitle } from "./onWall.ts";

/** The card that lies open, large, and what can be answered; once it is answered, what it is. */
export function OnTheTable({ open }: { readonly open: OpenCard }) {
  const { framed } = useLesson();
  const round = framed["card-table"];
  const { naming } = useWatched(round.settings);
  const isOpen = isCardOpen(open);
  return (
    <div className={styles.table} data-wide={isWide(open) || undefined}>
      <div className={styles.card}>
        <CardFace card={open.card} />
      </div>
      {open.of.length > 0 && <TeachersWord open={open} />}
      <section className={styles.side} aria-labelledby="card-asks">
        <h2 id="card-asks" className={styles.asks}>
          {cardTitle(open, naming)}
        </h2>
        {open.of.length === 0 ? (
          <p>Nothing to answer. It has no business here.</p>
        ) : isOpen ? (
          <Open open={open} key={open.card} />
        ) : (
          <div role="status" className={styles.answered}>
            {answeredWords(open, naming).map((words, at) => (
              <p key={`${at} ${words}`}>{words}</p>
            ))}
          </div>
        )}
      </section>
    </div>
  );
}

/** A bar needs the whole sheet to be read from two metres. */
function isWide({ card }: OpenCard): boolean {
  const kind = faceOf(card)?.kind;
  return kind === "rhythm" || kind === "sticking";
}

function Open({ open }: { readonly open: OpenCard }) {
  return (
    <>
      <WhoAnswers />
      {open.choices.length > 0 && <Choices open={open} />}
      {isNamed(open.card) && <Typed />}
      {faceOf(open.card)?.kind === "rhythm" && <Struck />}
    </>
  );
}

/** Where several are at the table: whose answer is waited for. */
function WhoAnswers() {
  const { framed } = useLesson();
  const { roster } = useStudio();
  const round = framed["card-table"];
  const { players } = useWatched(round);
  const by = round.answerer();
  if (players.length < 2 || by === null) return null;
  return <p>{roster.student(by)?.nickname ?? "A student"} answers.</p>;
}

const CHOICE_KEYS = ["Digit1", "Digit2", "Digit3", "Digit4"] as const;

function Choices({ open }: { readonly open: OpenCard }) {
  const { framed } = useLesson();
  const round = framed["card-table"];
  const { naming } = useWatched(round.settings);
  const choose = (at: number) => {
    const card = open.choices[at];
    return card === undefined ? null : () => round.choose(card);
  };
  useRoundKey(CHOICE_KEYS[0], choose(0));
  useRoundKey(CHOICE_KEYS[1], choose(1));
  useRoundKey(CHOICE_KEYS[2], choose(2));
  useRoundKey(CHOICE_KEYS[3], choose(3));
  return (
    <div className={styles.choices}>
      {open.choices.map((card, at) => (
        <Button key={card} aria-keyshortcuts={String(at + 1)} onPress={() => round.choose(card)}>
          <kbd>{at + 1}</kbd> {cardName(card, naming)}
        </Button>
      ))}
    </div>
  );
}

/** A name that is typed; which of several was meant, where that is not plain. */
function Typed() {
  const { framed } = useLesson();
  const round = framed["card-table"];
  const { naming } = useWatched(round.settings);
  const { asks, unknown } = useWatched(round.atHand);
  const [text, setText] = useState("");
  return (
    <div className={styles.typed}>
      <AnswerLine
        label="Or type its name"
        hint="Enter answers. Either usage, spelt nearly right, is understood."
        value={text}
        most={80}
        onChange={setText}
        onEnter={() => round.name(text)}
      />
      <div role="status">
        {unknown !== null && <p>“{unknown}” is no name I know. Nothing was answered.</p>}
        {asks.length > 0 && <p>Which of these?</p>}
      </div>
      {asks.length > 0 && (
        <div className={styles.choices}>
          {asks.map((card) => (
            <Button key={card} onPress={() => round.meant(card, text)}>
              {cardName(card, naming)}
            </Button>
          ))}
        </div>
      )}
    </div>
  );
}

function Struck() {
  const { framed } = useLesson();
  const round = framed["card-table"];
  const { struck } = useWatched(round.atHand);
  const { toClick, clickBpm } = useWatched(round.settings);
  if (struck > 0)
    return (
      <p>{`${strokesWords(struck)}. ${toClick ? "The bar is told when it is over" : "A silence ends the bar"}.`}</p>
    );
  return (
    <>
      <p>
        {toClick
          ? `One bar is counted in, ${clickBpm} beats a minute. Come in at any bar line, on any surface.`
          : "At your own tempo, on any surface. It is clearest with the stroke on the next one."}
      </p>
      <NoKit />
    </>
  );
}

const WORDS: readonly {
  readonly outcome: CardOutcome;
  readonly name: string;
  readonly code: string;
  readonly shown: string;
}[] = [
  { outcome: "known", name: "Known", code: "KeyI", shown: "I" },
  { outcome: "slipped", name: "Slipped", code: "KeyX", shown: "X" },
  { outcome: "never-met", name: "Never met", code: "KeyM", shown: "M" },
];

/** The teacher heard what was said: the card is left as known, slipped or never met, whatever was taken. */
function TeachersWord({ open }: { readonly open: OpenCard }) {
  const { framed } = useLesson();
  const round = framed["card-table"];
  const now = isCardOpen(open) ? undefined : open.answers.at(-1)?.outcome;
  useRoundKey("KeyI", () => round.judge("known"));
  useRoundKey("KeyX", () => round.judge("slipped"));
  useRoundKey("KeyM", () => round.judge("never-met"));
  return (
    <fieldset className={styles.word}>
      <legend>{now === undefined ? "Said aloud, it was" : "The teacher’s word"}</legend>
      {WORDS.map(({ outcome, name, shown }) => (
        <Button
          key={outcome}
          aria-pressed={outcome === now}
          isNow={outcome === now}
          aria-keyshortcuts={shown}
          onPress={() => round.judge(outcome)}
        >
          {name} <kbd>{shown}</kbd>
        </Button>
      ))}
    </fieldset>
  );
}
