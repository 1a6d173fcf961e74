/** A fill on paper: in its whole bars, with the silence before it, and where it leads. */
import { beatsPerBar, type Fill, inWholeBars, levelName, startsOnBeat } from "../../../engine/score/index.ts";
import styles from "./print.module.css";
import { RingSheet } from "./RingSheet.tsx";
import { SheetTop } from "./SheetParts.tsx";
import type { SheetHead } from "./sheet.ts";
import { linesOfGroove } from "./staffLines.ts";
import { writtenWords } from "./writtenWords.ts";

export interface FillSheetProps {
  readonly fill: Fill;
  readonly head: SheetHead;
}

export function FillSheet({ fill, head }: FillSheetProps) {
  const whole = inWholeBars(fill);
  return (
    <RingSheet
      bars={whole}
      lines={linesOfGroove(whole, { repeated: false })}
      top={
        <SheetTop head={head} kind="Fill" title={fill.name}>
          {`${writtenWords(fill)}. From the level “${levelName(fill.level)}” on.`}
        </SheetTop>
      }
    >
      <p className={styles.say}>{placeWords(fill)}</p>
      <ol className={styles.steps}>
        <li>Count aloud and strike the fill alone.</li>
        <li>
          {whole.bars === 1 ? "Three" : "Two"} bars of a groove, then the fill, then the one of the next bar.
        </li>
        <li>The same without a change of tempo: the click tells.</li>
      </ol>
    </RingSheet>
  );
}

function placeWords(fill: Fill): string {
  const beats = beatsPerBar(fill.metre);
  if (fill.beats === beats) return "It fills the bar and leads to the one after it.";
  if (fill.beats === 2 * beats) return "It fills two bars and leads to the one after them.";
  return `It begins on beat ${startsOnBeat(fill)} and leads to the one of the next bar.`;
}
