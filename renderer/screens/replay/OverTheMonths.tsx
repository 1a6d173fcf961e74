/** The groove of the take at the cursor, as this student has played it over the months: small charts of one scale. */
import { useEffect, useMemo, useState } from "react";
import { voiceName } from "../../../engine/kit/index.ts";
import type { StoredTake } from "../../../engine/records/index.ts";
import type { TakeState } from "../../../engine/session/index.ts";
import { formatLean, formatSpread, formatTempo, WideTable } from "../../charts/index.ts";
import { dayInWords } from "../../out/print/dayWords.ts";
import { type StudioDatabase, storeErrorOf, takesOfGroove } from "../../store/index.ts";
import { Button } from "../../theme/index.ts";
import { commonEdgeMs, oneOfEachLesson, voiceShort, voicesOf } from "./grooveMonths.ts";
import type { OtherTake } from "./otherTakes.ts";
import styles from "./replay.module.css";
import { lessonHref } from "./replayPlace.ts";
import { leadIn } from "./takesOfLesson.ts";

export type Months =
  | { readonly stage: "loading" }
  | { readonly stage: "failed"; readonly reason: string }
  /** All takes of the groove, oldest first. */
  | { readonly stage: "found"; readonly takes: readonly StoredTake[] };

/** What is kept of the groove of a take, of this student. */
export function useMonths(database: StudioDatabase, take: TakeState | undefined): Months {
  const [months, setMonths] = useState<Months>({ stage: "loading" });
  const studentId = take?.studentId ?? null;
  const grooveId = take?.judgement?.summary.groove?.id;
  useEffect(() => {
    if (studentId === null || grooveId === undefined) return;
    let isWanted = true;
    setMonths({ stage: "loading" });
    takesOfGroove(database, studentId, grooveId).then(
      (takes) => isWanted && setMonths({ stage: "found", takes }),
      (error: unknown) => isWanted && setMonths({ stage: "failed", reason: storeErrorOf(error).message }),
    );
    return () => {
      isWanted = false;
    };
  }, [database, studentId, grooveId]);
  return months;
}

export function OverTheMonths({
  months,
  take,
  others,
  onLayBeside,
}: {
  readonly months: Months;
  readonly take: TakeState;
  /** Those that can be laid beside it. */
  readonly others: readonly OtherTake[];
  readonly onLayBeside: (other: OtherTake) => void;
}) {
  const { studentId } = take;
  const groove = take.judgement?.summary.groove ?? null;
  const ofEach = useMemo(() => (months.stage === "found" ? oneOfEachLesson(months.takes) : []), [months]);
  if (studentId === null || !groove) return null;
  return (
    <section className={styles.section}>
      <h2>{groove.name} over the months</h2>
      {months.stage === "loading" && <p role="status">Earlier takes are being looked up.</p>}
      {months.stage === "failed" && <p role="alert">{months.reason}</p>}
      {months.stage === "found" &&
        (ofEach.length < 2 ? (
          <p>It was measured in one lesson so far. With a second one, they stand here side by side.</p>
        ) : (
          <Multiples
            takes={ofEach}
            of={months.takes.length}
            lessonId={take.judgement?.summary.lessonId}
            others={others}
            onLayBeside={onLayBeside}
          />
        ))}
    </section>
  );
}

function Multiples({
  takes,
  of,
  lessonId,
  others,
  onLayBeside,
}: {
  readonly takes: readonly StoredTake[];
  readonly of: number;
  readonly lessonId: string | undefined;
  readonly others: readonly OtherTake[];
  readonly onLayBeside: (other: OtherTake) => void;
}) {
  const edgeMs = commonEdgeMs(takes);
  return (
    <>
      <p className={styles.hint}>
        Lean and spread by beat, one take of each lesson ({takes.length} of {of} takes). Left of the line
        ahead, right of it behind; every chart reaches {edgeMs} ms either way.
      </p>
      <ul className={styles.multiples}>
        {takes.map((take) => (
          <li key={take.takeId}>
            <a
              href={lessonHref(take.lessonId, leadIn(take.fromSeconds))}
              aria-current={take.lessonId === lessonId ? "true" : undefined}
            >
              {dayInWords(take.day)}
            </a>
            <Small take={take} edgeMs={edgeMs} />
            <span>spread {formatSpread(take.spreadMs)}</span>
            <LayBeside
              other={others.find(({ takeId }) => takeId === take.takeId)}
              onLayBeside={onLayBeside}
            />
          </li>
        ))}
      </ul>
      <WideTable label="Over the months, in figures">
        <table className={styles.figures} aria-label="Over the months, in figures">
          <thead>
            <tr>
              <th scope="col">lesson</th>
              <th scope="col">tempo</th>
              <th scope="col">lean</th>
              <th scope="col">spread</th>
              {Array.from({ length: mostBeats(takes) }, (_, beat) => (
                <th key={beat} scope="col">
                  beat {beat + 1}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {takes.map((take) => (
              <tr key={take.takeId}>
                <th scope="row">{dayInWords(take.day)}</th>
                <td>{take.tempoBpm === null ? "not told" : formatTempo(take.tempoBpm)}</td>
                <td>{take.leanMs === null ? "no click" : formatLean(take.leanMs)}</td>
                <td>{formatSpread(take.spreadMs)}</td>
                {Array.from({ length: mostBeats(takes) }, (_, beat) => {
                  const found = take.beats.find((each) => each.beat === beat + 1);
                  return <td key={beat}>{found ? formatLean(found.leanMs) : ""}</td>;
                })}
              </tr>
            ))}
          </tbody>
        </table>
      </WideTable>
      <h3>Sounds, side by side</h3>
      <WideTable label="Sounds over the months">
        <table className={styles.figures} aria-label="Sounds over the months">
          <thead>
            <tr>
              <th scope="col">voice</th>
              {takes.map((take) => (
                <th key={take.takeId} scope="col">
                  {dayInWords(take.day)}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {voicesOf(takes).map((voice) => (
              <tr key={voice}>
                <th scope="row">{voiceName(voice)}</th>
                {takes.map((take) => (
                  <td key={take.takeId}>{voiceShort(take, voice)}</td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </WideTable>
    </>
  );
}

/** Not of the lesson that is open: its takes are chosen by their numbers. */
function LayBeside({
  other,
  onLayBeside,
}: {
  readonly other: OtherTake | undefined;
  readonly onLayBeside: (other: OtherTake) => void;
}) {
  if (!other) return null;
  return (
    <Button
      weight="quiet"
      aria-label={`Lay ${other.name} beside this one`}
      onPress={() => onLayBeside(other)}
    >
      Lay beside
    </Button>
  );
}

function mostBeats(takes: readonly StoredTake[]): number {
  return takes.reduce((most, { beats }) => Math.max(most, ...beats.map(({ beat }) => beat)), 0);
}

const WIDTH = 128;
const ROW = 15;

/** A row a beat: the lean a point, the spread a stroke through it. The figures stand in the table below. */
function Small({ take, edgeMs }: { readonly take: StoredTake; readonly edgeMs: number }) {
  const x = (ms: number): number => WIDTH / 2 + (ms / edgeMs) * (WIDTH / 2 - 6);
  const height = take.beats.length * ROW + 4;
  return (
    <svg width={WIDTH} height={height} viewBox={`0 0 ${WIDTH} ${height}`} aria-hidden="true">
      <path d={`M${WIDTH / 2} 0V${height}`} stroke="var(--edge)" strokeWidth="1" />
      {take.beats.map(({ beat, leanMs, spreadMs }, row) => {
        if (leanMs === null) return null;
        const y = row * ROW + ROW / 2 + 2;
        return (
          <g key={beat}>
            <path
              d={`M${x(leanMs - (spreadMs ?? 0))} ${y}H${x(leanMs + (spreadMs ?? 0))}`}
              stroke="var(--ink)"
              strokeWidth="1.5"
            />
            <circle cx={x(leanMs)} cy={y} r="3.5" fill="var(--ink)" />
          </g>
        );
      })}
    </svg>
  );
}
