/** A groove on paper: staff, ring, what makes it itself, and room for the teacher's pencil. */
import { type Groove, usualTempo } from "../../../engine/score/index.ts";
import styles from "./print.module.css";
import { RingSheet } from "./RingSheet.tsx";
import { SheetTop } from "./SheetParts.tsx";
import type { SheetHead } from "./sheet.ts";
import { linesOfGroove } from "./staffLines.ts";
import { writtenWords } from "./writtenWords.ts";

export interface GrooveSheetProps {
  readonly groove: Groove;
  readonly itself?: string | undefined;
  readonly head: SheetHead;
}

export function GrooveSheet({ groove, itself, head }: GrooveSheetProps) {
  const usual = usualTempo(groove);
  return (
    <RingSheet
      bars={groove}
      lines={linesOfGroove(groove, { repeated: true })}
      top={
        <SheetTop head={head} kind="Groove" title={groove.name}>
          {writtenWords(groove)}
        </SheetTop>
      }
    >
      {itself === undefined ? null : <p className={styles.say}>{itself}</p>}
      <p>
        The ring is {ringWords(groove.bars)}, clockwise from the top. Small circles: ghost notes. A second
        circle inside: an accent.
      </p>
      <p>
        A usual tempo is {usual} a minute. Learn it at {Math.round(usual / 2)}.
      </p>
    </RingSheet>
  );
}

function ringWords(bars: number): string {
  if (bars === 1) return "one bar";
  return bars === 2 ? "two bars" : `the first of ${bars} bars`;
}
