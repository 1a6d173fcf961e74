/** Two takes of one groove side by side: what changed in words, lean and spread by beat, voices. */
import { voiceWords } from "../../../../engine/grading/index.ts";
import { voiceName } from "../../../../engine/kit/index.ts";
import { inRingOrder, LeanBeside, WideTable } from "../../../charts/index.ts";
import styles from "./beside.module.css";
import { changeWords, isSameClock } from "./changeWords.ts";
import type { MeasuredTake } from "./takesBeside.ts";

/** A take, and how it is called here: "take 2", "this take". */
export interface NamedTake {
  readonly take: Pick<MeasuredTake, "report">;
  readonly name: string;
}

/** @param props.before the one that was played first. */
export function ComparedTakes({ before, now }: { readonly before: NamedTake; readonly now: NamedTake }) {
  const { halfBandMs, hearableMs } = now.take.report.band;
  return (
    <>
      <div className={styles.compared}>
        <ul className={styles.changes} aria-label="What changed">
          {changeWords(before.take.report, now.take.report).map((sentence) => (
            <li key={sentence}>{sentence}</li>
          ))}
        </ul>
        <LeanBeside
          before={before.take.report}
          now={now.take.report}
          beforeName={before.name}
          nowName={now.name}
          sameClock={isSameClock(before.take.report, now.take.report)}
          bandMs={halfBandMs}
          limitMs={hearableMs}
        />
      </div>
      <VoicesBeside before={before} now={now} />
    </>
  );
}

function VoicesBeside({ before, now }: { readonly before: NamedTake; readonly now: NamedTake }) {
  const rows = [...before.take.report.voices, ...now.take.report.voices];
  const voices = inRingOrder(rows.map(({ voice }) => voice));
  const wordsOf = ({ take }: NamedTake, voice: (typeof voices)[number]): string => {
    const figures = take.report.voices.find((row) => row.voice === voice);
    return figures ? voiceWords(figures) : "not written, not played";
  };
  return (
    <WideTable label="Voices of both takes">
      <table className={styles.voices} aria-label="Voices of both takes">
        <thead>
          <tr>
            <th scope="col">voice</th>
            <th scope="col">{before.name}</th>
            <th scope="col">{now.name}</th>
          </tr>
        </thead>
        <tbody>
          {voices.map((voice) => (
            <tr key={voice}>
              <th scope="row">{voiceName(voice)}</th>
              <td>{wordsOf(before, voice)}</td>
              <td>{wordsOf(now, voice)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </WideTable>
  );
}
