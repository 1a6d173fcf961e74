/** A phrase on paper: played once, a call or the answer to one. */
import { type Phrase, usualTempo } from "../../../engine/score/index.ts";
import styles from "./print.module.css";
import { RingSheet } from "./RingSheet.tsx";
import { SheetTop } from "./SheetParts.tsx";
import type { SheetHead } from "./sheet.ts";
import { linesOfGroove } from "./staffLines.ts";
import { writtenWords } from "./writtenWords.ts";

export interface PhraseSheetProps {
  readonly phrase: Phrase;
  readonly head: SheetHead;
}

export function PhraseSheet({ phrase, head }: PhraseSheetProps) {
  const usual = usualTempo(phrase);
  const bars = phrase.bars === 1 ? "one bar is" : `${phrase.bars} bars are`;
  return (
    <RingSheet
      bars={phrase}
      lines={linesOfGroove(phrase, { repeated: false })}
      top={
        <SheetTop
          head={head}
          kind={phrase.role === "call" ? "Phrase, a call" : "Phrase, an answer"}
          title={phrase.name}
        >
          {writtenWords(phrase)}
        </SheetTop>
      }
    >
      <p className={styles.say}>
        {phrase.role === "call"
          ? `It is played once. Then ${bars} left for the answer.`
          : "It is played once, straight after the call."}
      </p>
      <p>
        A usual tempo is {usual} a minute. Learn it at {Math.round(usual / 2)}, counting aloud through the
        silence.
      </p>
    </RingSheet>
  );
}
