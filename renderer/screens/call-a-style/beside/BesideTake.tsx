/** This take beside an earlier one of the same groove: what changed in words, lean and spread by beat, voices. */
import { voiceWords } from "../../../../engine/grading/index.ts";
import { voiceName } from "../../../../engine/kit/index.ts";
import type { Beside } from "../../../../engine/rounds/index.ts";
import { inRingOrder, LeanBeside, WideTable } from "../../../charts/index.ts";
import { Choice } from "../../../theme/index.ts";
import { useReportKey } from "../useReportKey.ts";
import styles from "./beside.module.css";
import { changeWords, isSameClock } from "./changeWords.ts";
import { type MeasuredTake, nextBeside, type TakesBeside, takeInShort, takeName } from "./takesBeside.ts";

export interface BesideTakeProps {
  readonly takes: TakesBeside;
  readonly onChoose: (beside: Beside) => void;
}

const NONE = "none";

export function BesideTake({ takes, onChoose }: BesideTakeProps) {
  const { now, others, chosen } = takes;
  useReportKey("KeyB", () => onChoose(nextBeside(takes)));
  return (
    <section className={styles.beside}>
      <div className={styles.head}>
        <h2 aria-live="polite">{headingWords(takes)}</h2>
        <div className={styles.choice}>
          <Choice
            label="Laid beside this take"
            options={[
              ...others.map((take) => ({ id: String(take.number), name: takeInShort(take) })),
              { id: NONE, name: "no other take" },
            ]}
            chosen={chosen ? String(chosen.number) : NONE}
            onChoose={(id) => onChoose(id === NONE ? NONE : Number(id))}
          />
          <kbd>B</kbd>
        </div>
      </div>
      {chosen ? <Compared before={chosen} now={now} /> : null}
    </section>
  );
}

function headingWords({ others, chosen }: TakesBeside): string {
  if (!chosen) return "Beside another take";
  return chosen === others[0] ? "Beside the take before" : `Beside ${takeName(chosen)}`;
}

function Compared({ before, now }: { readonly before: MeasuredTake; readonly now: MeasuredTake }) {
  const { halfBandMs, hearableMs } = now.report.band;
  return (
    <>
      <div className={styles.compared}>
        <ul className={styles.changes} aria-label="What changed">
          {changeWords(before.report, now.report).map((sentence) => (
            <li key={sentence}>{sentence}</li>
          ))}
        </ul>
        <LeanBeside
          before={before.report}
          now={now.report}
          beforeName={takeName(before)}
          sameClock={isSameClock(before.report, now.report)}
          bandMs={halfBandMs}
          limitMs={hearableMs}
        />
      </div>
      <VoicesBeside before={before} now={now} />
    </>
  );
}

function VoicesBeside({ before, now }: { readonly before: MeasuredTake; readonly now: MeasuredTake }) {
  const voices = inRingOrder([...before.report.voices, ...now.report.voices].map(({ voice }) => voice));
  const wordsOf = ({ report }: MeasuredTake, voice: (typeof voices)[number]): string => {
    const figures = report.voices.find((row) => row.voice === voice);
    return figures ? voiceWords(figures) : "not written, not played";
  };
  return (
    <WideTable label="Voices of both takes">
      <table className={styles.voices} aria-label="Voices of both takes">
        <thead>
          <tr>
            <th scope="col">voice</th>
            <th scope="col">{takeName(before)}</th>
            <th scope="col">this take</th>
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
