/** Written against heard: a row for every written voice, a column for every voice that was heard. */
import type { VoiceFigures } from "../../engine/grading/index.ts";
import { type Voice, voiceName } from "../../engine/kit/index.ts";
import styles from "./charts.module.css";
import { formatCount } from "./figures.ts";
import { inRingOrder } from "./ringGeometry.ts";
import { WideTable } from "./WideTable.tsx";

export interface VoiceTableProps {
  readonly voices: readonly VoiceFigures[];
}

export function VoiceTable({ voices }: VoiceTableProps) {
  const order = inRingOrder(voices.map(({ voice }) => voice));
  const rows = order.flatMap((voice) => voices.filter((row) => row.voice === voice && row.written > 0));
  const columns = heardVoices(voices);
  const added = voices.some((row) => row.added > 0);
  return (
    <>
      <WideTable label="Voices, written against heard">
        <table className={styles.crossed}>
          <caption className={styles.unseen}>
            Voices: each row a written voice and how often, each column what was heard in its place
          </caption>
          <thead>
            <tr>
              <td />
              <th scope="colgroup" colSpan={columns.length}>
                heard
              </th>
              <td />
            </tr>
            <tr>
              <th scope="col">written</th>
              {columns.map((voice) => (
                <th key={voice} scope="col">
                  {voiceName(voice)}
                </th>
              ))}
              <th scope="col">left out</th>
            </tr>
          </thead>
          <tbody>
            {rows.map((row) => (
              <tr key={row.voice}>
                <th scope="row">{`${voiceName(row.voice)}, ${row.written}`}</th>
                {columns.map((heard) => (
                  <Crossing key={heard} count={heardAs(row, heard)} isWritten={heard === row.voice} />
                ))}
                <Crossing count={row.leftOut} isWritten={false} />
              </tr>
            ))}
            {added ? (
              <tr>
                <th scope="row">added</th>
                {columns.map((heard) => (
                  <Crossing
                    key={heard}
                    count={voices.find(({ voice }) => voice === heard)?.added ?? 0}
                    isWritten={false}
                  />
                ))}
                <td />
              </tr>
            ) : null}
          </tbody>
        </table>
      </WideTable>
      <p className={styles.note}>
        {rows.some(differs) || added
          ? "Framed: another sound than written, left out, or added."
          : "Every stroke is where it is written, and nothing was added."}
      </p>
    </>
  );
}

/** Every voice that is written, or sounded in its place, or was added. */
function heardVoices(voices: readonly VoiceFigures[]): readonly Voice[] {
  return inRingOrder(voices.flatMap((row) => [row.voice, ...row.otherSound.map(({ voice }) => voice)]));
}

function heardAs(row: VoiceFigures, heard: Voice): number {
  if (heard === row.voice) return row.asWritten;
  return row.otherSound.find(({ voice }) => voice === heard)?.count ?? 0;
}

function differs({ otherSound, leftOut }: VoiceFigures): boolean {
  return leftOut > 0 || otherSound.length > 0;
}

/** A count where written and heard cross: plain where they agree, framed where not, a point where there is none. */
function Crossing({ count, isWritten }: { readonly count: number; readonly isWritten: boolean }) {
  if (count === 0) {
    return (
      <td>
        <span aria-hidden="true" className={styles.nought}>
          ·
        </span>
        <span className={styles.unseen}>none</span>
      </td>
    );
  }
  return (
    <td>
      <span className={isWritten ? styles.agrees : styles.framed}>{formatCount(count)}</span>
    </td>
  );
}
