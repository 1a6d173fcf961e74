/** Beside the sheet: why this groove, the figures of the whole take, and what else it might have been. */
import { driftWords, type Report, setUpWords, sharesClock } from "../../../../engine/grading/index.ts";
import type { Candidate, Heard, Hearing } from "../../../../engine/listening/index.ts";
import type { Milliseconds } from "../../../../engine/units/index.ts";
import { formatRatio, formatWholeMs } from "../../../charts/index.ts";
import { alsoTold, type Told, whyTold } from "./evidenceWords.ts";
import { chanceWords, isAnother } from "./headingWords.ts";
import { isComparable, leanFigure } from "./leanFigure.ts";
import styles from "./report.module.css";

export interface ReportMarginProps {
  readonly report: Report | undefined;
  readonly hearing: Hearing;
  /** Name of the style that was called; undefined when the choice was free. */
  readonly calledName: string | undefined;
  /**
   * How well the delay of the set-up is known: ± milliseconds, `null` where it was never measured; left out where no
   * set-up was played on.
   */
  readonly setUpGiveOrTakeMs?: Milliseconds | null | undefined;
}

export function ReportMargin({ report, hearing, calledName, setUpGiveOrTakeMs }: ReportMarginProps) {
  const measured = report && isComparable(report) && !isAnother(hearing, calledName) ? report : undefined;
  const swingIsGraded = measured !== undefined && measured.swingRatio !== null;
  return (
    <div className={styles.margin}>
      {hearing.kind === "heard" ? <Telling {...whyTold(hearing, calledName)} /> : null}
      {measured ? <Figures report={measured} setUpGiveOrTakeMs={setUpGiveOrTakeMs} /> : null}
      {hearing.kind === "heard" ? <Telling {...alsoTold(hearing, { swingIsGraded })} /> : null}
      {hearing.kind === "heard" ? <Alternatives hearing={hearing} /> : null}
    </div>
  );
}

function Telling({ heading, sentences }: Told) {
  if (sentences.length === 0) return null;
  return (
    <section>
      <h2>{heading}</h2>
      {sentences.map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
    </section>
  );
}

function Figures({
  report,
  setUpGiveOrTakeMs,
}: {
  readonly report: Report;
  readonly setUpGiveOrTakeMs: Milliseconds | null | undefined;
}) {
  const { leanMs, spreadMs, swingRatio, flams } = report;
  const isAgainstClick = setUpGiveOrTakeMs !== undefined && sharesClock(report);
  const setUp = isAgainstClick ? setUpWords(leanMs, setUpGiveOrTakeMs) : null;
  return (
    <section>
      <h2>Figures</h2>
      <dl>
        <Figure name="Lean" figure={leanFigure(report)} />
        <Figure name="Spread" figure={formatWholeMs(spreadMs)} />
        {swingRatio === null ? null : <Figure name="Long to short" figure={formatRatio(swingRatio)} />}
        {flams.written === 0 ? null : (
          <Figure name="Flams" figure={`${flams.played} of ${flams.written}${flamGap(flams.gapMs)}`} />
        )}
      </dl>
      {setUp === null ? null : <p>{setUp}</p>}
      <p>{driftWords(report)}</p>
    </section>
  );
}

function flamGap(gapMs: number | null): string {
  return gapMs === null ? "" : `, ${formatWholeMs(gapMs)} open`;
}

function Figure({ name, figure }: { readonly name: string; readonly figure: string }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>{figure}</dd>
    </div>
  );
}

const MOST_ALTERNATIVES = 2;

function Alternatives({ hearing }: { readonly hearing: Heard }) {
  const others = hearing.candidates.slice(hearing.known ? 1 : 0, MOST_ALTERNATIVES + (hearing.known ? 1 : 0));
  if (others.length === 0) return null;
  return (
    <section>
      <h2>{hearing.known ? "Else it might be" : "Nearest"}</h2>
      {others.map((candidate) => (
        <Alternative key={candidate.id} candidate={candidate} />
      ))}
    </section>
  );
}

function Alternative({ candidate }: { readonly candidate: Candidate }) {
  return (
    <p>
      {candidate.name}: {chanceWords(candidate.confidence)}
    </p>
  );
}
