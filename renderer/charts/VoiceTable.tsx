/** Voice by voice: what was written, and what became of it. */
import type { VoiceFigures } from "../../engine/grading/index.ts";
import { voiceName } from "../../engine/kit/index.ts";
import { ColumnHeads } from "./ColumnHeads.tsx";
import styles from "./charts.module.css";
import { formatCount, formatTouch } from "./figures.ts";
import { inRingOrder } from "./ringGeometry.ts";

export interface VoiceTableProps {
  readonly voices: readonly VoiceFigures[];
}

const COLUMNS = ["written", "as written", "other sound", "left out", "added", "touch"] as const;

export function VoiceTable({ voices }: VoiceTableProps) {
  return (
    <table className={styles.voices}>
      <caption className={styles.unseen}>Voices: what was written and what was heard</caption>
      <ColumnHeads columns={COLUMNS} />
      <tbody>
        {inRingOrder(voices.map((figures) => figures.voice)).flatMap((voice) =>
          voices
            .filter((figures) => figures.voice === voice)
            .map((figures) => <VoiceRow key={voice} figures={figures} />),
        )}
      </tbody>
    </table>
  );
}

function VoiceRow({ figures }: { readonly figures: VoiceFigures }) {
  const other = figures.otherSound.map(({ voice, count }) => `${count} ${voiceName(voice)}`).join(", ");
  return (
    <tr>
      <th scope="row">{`${voiceName(figures.voice)}, ${formatCount(figures.written)}`}</th>
      <td>{formatCount(figures.asWritten)}</td>
      <Differing words={other === "" ? "none" : other} />
      <Differing words={formatCount(figures.leftOut)} />
      <Differing words={formatCount(figures.added)} />
      <td>{formatTouch(figures.touch)}</td>
    </tr>
  );
}

/** A cell that says "none" when all is well, and stands out by weight when not. */
function Differing({ words }: { readonly words: string }) {
  return <td className={words === "none" ? undefined : styles.differs}>{words}</td>;
}
