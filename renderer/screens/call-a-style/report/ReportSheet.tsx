/** A take's report, on the sheet: what it was, how it lay in time, the one thing to work on, and the figures. */
import { bandMs, type Level, leanWords, type Report, workOnWords } from "../../../../engine/grading/index.ts";
import type { Hit } from "../../../../engine/kit/index.ts";
import type { Hearing } from "../../../../engine/listening/index.ts";
import { beatsPerBar, type Groove } from "../../../../engine/score/index.ts";
import {
  BarRing,
  formatBars,
  LeanAlong,
  LeanByBeat,
  type PlayedMark,
  VoiceTable,
} from "../../../charts/index.ts";
import { foldedMarks, marksByPulse } from "./foldedMarks.ts";
import { asksForWords, calledUnder, headingWords, isAnother, sublineWords } from "./headingWords.ts";
import { isComparable } from "./leanFigure.ts";
import styles from "./report.module.css";

export interface ReportSheetProps {
  /** Undefined when there was nothing to compare with: none of the known grooves, and none called. */
  readonly report: Report | undefined;
  readonly hearing: Hearing;
  /** The groove the report compares with. */
  readonly groove: Groove | undefined;
  /** Name of the style that was called; undefined when the choice was free. */
  readonly calledName: string | undefined;
  readonly click: boolean;
  /** Sets the band; steady when not said. */
  readonly level?: Level;
  /** The take's strikes, shown on the ring when there is no report. */
  readonly hits?: readonly Hit[];
}

const RING_PIXELS = 300;
const NO_HITS: readonly Hit[] = [];

export function ReportSheet({
  report: judged,
  hearing,
  groove,
  calledName,
  click,
  level = "steady",
  hits = NO_HITS,
}: ReportSheetProps) {
  const another = isAnother(hearing, calledName);
  const report = judged && isComparable(judged) && !another ? judged : undefined;
  const under = another ? calledUnder(groove, hearing) : report && groove;
  const band = bandMs(level, report?.tempoBpm ?? tempoOf(hearing));
  return (
    <article className={styles.sheet}>
      <header>
        <h1>{headingWords(hearing, calledName)}</h1>
        <p className={styles.subline}>{sublineWords(hearing, { click, calledName })}</p>
      </header>
      <div className={styles.look}>
        <BarRing
          groove={under}
          played={takeMarks(report, hearing, groove, band, hits)}
          handPlace={undefined}
          size={RING_PIXELS}
          label={ringLabel(hearing, under)}
          beats={hearing.kind === "heard" ? beatsPerBar(hearing.pulse.metre) : undefined}
        />
        <div>
          {report ? <p className={styles.say}>{leanWords(report, level)}</p> : null}
          <p className={styles.say}>{workWords(judged, hearing, calledName, band)}</p>
          {report && report.perBeat.length > 0 ? (
            <LeanByBeat
              perBeat={report.perBeat}
              leanMs={report.leanMs}
              bandMs={band}
              workOn={report.workOn}
            />
          ) : null}
        </div>
      </div>
      {report ? <Below report={report} /> : null}
    </article>
  );
}

function Below({ report }: { readonly report: Report }) {
  return (
    <>
      <section>
        <h2>Voices</h2>
        <VoiceTable voices={report.voices} />
      </section>
      {report.perBar.length > 1 ? (
        <section>
          <h2>Along the take</h2>
          <LeanAlong perBar={report.perBar} />
        </section>
      ) : null}
    </>
  );
}

function takeMarks(
  report: Report | undefined,
  hearing: Hearing,
  groove: Groove | undefined,
  band: number,
  hits: readonly Hit[],
): readonly PlayedMark[] {
  if (report && groove) return foldedMarks(report, groove, band);
  return hearing.kind === "heard" ? marksByPulse(hits, hearing.pulse) : [];
}

function tempoOf(hearing: Hearing): number {
  return hearing.kind === "heard" ? hearing.pulse.tempoBpm : 100;
}

function ringLabel(hearing: Hearing, groove: Groove | undefined): string {
  const bars = hearing.kind === "heard" ? `, ${formatBars(hearing.span.bars)} laid over one another` : "";
  return `Bar ring of ${groove?.name ?? "what was played"}${bars}`;
}

function workWords(
  report: Report | undefined,
  hearing: Hearing,
  calledName: string | undefined,
  band: number,
): string {
  if (calledName !== undefined && isAnother(hearing, calledName)) return asksForWords(calledName);
  return report ? workOnWords(report.workOn, band) : unmatchedWords(hearing);
}

function unmatchedWords(hearing: Hearing): string {
  return hearing.kind === "heard"
    ? "It is none of the grooves I know, so I compare it with nothing. The ring shows what was played."
    : "There is nothing to compare yet.";
}
