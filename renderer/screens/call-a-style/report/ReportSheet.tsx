/** A take's report, on the sheet: what it was, how it lay in time, the one thing to work on, and the figures. */
import { type ReactNode, useMemo } from "react";
import { type GapDrift, leanWords, type Report, workOnWords } from "../../../../engine/grading/index.ts";
import type { Hit } from "../../../../engine/kit/index.ts";
import type { Hearing } from "../../../../engine/listening/index.ts";
import { beatsPerBar, type Groove } from "../../../../engine/score/index.ts";
import { beatSeconds } from "../../../../engine/units/index.ts";
import {
  type BandAndLimitOf,
  BarRing,
  formatBars,
  LeanAlong,
  LeanByBeat,
  type PlaceMean,
  type PlayedMark,
  TouchTable,
  VoiceTable,
} from "../../../charts/index.ts";
import { HeardStaff, WrittenOverHeard } from "../../../notation/index.ts";
import { KeepPicture } from "../../../out/picture/KeepPicture.tsx";
import { marksByPulse, strayMarks } from "./foldedMarks.ts";
import { asksForWords, calledUnder, headingWords, isAnother, sublineWords } from "./headingWords.ts";
import { isComparable } from "./leanFigure.ts";
import { MoreAboutThisTake } from "./MoreAboutThisTake.tsx";
import { placeMeans } from "./placeMeans.ts";
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
  /** What happened while it was silent. */
  readonly gapDrifts?: readonly GapDrift[] | undefined;
  /** How well the delay of the set-up is known, ± milliseconds; left out where it is not. */
  readonly setUpGiveOrTakeMs?: number | null | undefined;
  /** The take's strikes, shown on the ring when there is no report. */
  readonly hits?: readonly Hit[];
  /** The take laid beside another; shown where there is a report. */
  readonly beside?: ReactNode;
}

const RING_PIXELS = 300;
const NO_MEANS: readonly PlaceMean[] = [];
const NO_HITS: readonly Hit[] = [];
const NO_DRIFTS: readonly GapDrift[] = [];

export function ReportSheet({
  report: judged,
  hearing,
  groove,
  calledName,
  click,
  gapDrifts = NO_DRIFTS,
  setUpGiveOrTakeMs = null,
  hits = NO_HITS,
  beside = null,
}: ReportSheetProps) {
  const another = isAnother(hearing, calledName);
  const report = judged && isComparable(judged) && !another ? judged : undefined;
  const under = another ? calledUnder(groove, hearing) : report && groove;
  const marks = useMemo(() => takeMarks(report, hearing, groove, hits), [report, hearing, groove, hits]);
  const means = useMemo(
    () => (report && groove ? placeMeans(report, groove, report.band.halfBandMs) : NO_MEANS),
    [report, groove],
  );
  return (
    <article className={styles.sheet}>
      <header>
        <h1>{headingWords(hearing, calledName)}</h1>
        <p className={styles.subline}>{sublineWords(hearing, { click, calledName })}</p>
      </header>
      <div className={styles.look}>
        <figure className={styles.ring}>
          <BarRing
            groove={under}
            played={marks}
            means={means}
            handPlace={undefined}
            size={RING_PIXELS}
            label={ringLabel(hearing, under)}
            beats={hearing.kind === "heard" ? beatsPerBar(hearing.pulse.metre) : undefined}
          />
          <figcaption>
            {means.length === 0 ? null : <RingKey />}
            <KeepPicture shows="Bar ring" />
          </figcaption>
        </figure>
        <div>
          {report ? (
            <p className={styles.say}>{leanWords(report, report.band.level, setUpGiveOrTakeMs ?? 0)}</p>
          ) : null}
          <p className={styles.say}>{workWords(judged, hearing, calledName)}</p>
          {report && report.perBeat.length > 0 ? (
            <LeanByBeat perBeat={report.perBeat} workOn={report.workOn} {...bandAndLimit(report)} />
          ) : null}
        </div>
      </div>
      {report ? beside : null}
      {report && groove ? <Below report={report} groove={groove} gapDrifts={gapDrifts} /> : null}
      {!report && hearing.kind === "heard" && hits.length > 0 ? (
        <section>
          <h2>As it was heard</h2>
          <HeardStaff hits={hits} hearing={hearing} />
        </section>
      ) : null}
    </article>
  );
}

/** How the ring is read. */
function RingKey() {
  return (
    <p>
      Circle: written. Across it the played mean, along the ring one spread either way. With a dot: a stroke
      that strays.
    </p>
  );
}

/** The zones behind every chart of leans. */
function bandAndLimit({ leanMs, band }: Report): BandAndLimitOf {
  return { leanMs, bandMs: band.halfBandMs, limitMs: band.hearableMs };
}

function Below({
  report,
  groove,
  gapDrifts,
}: {
  readonly report: Report;
  readonly groove: Groove;
  readonly gapDrifts: readonly GapDrift[];
}) {
  const { perBar, tempoBpm, driftPercent, start } = report;
  return (
    <>
      <section>
        <h2>Written over heard</h2>
        <figure className={styles.staff}>
          <WrittenOverHeard report={report} groove={groove} />
          <KeepPicture shows="Written over heard" />
        </figure>
      </section>
      <section>
        <h2>Voices</h2>
        <VoiceTable voices={report.voices} />
      </section>
      <section>
        <h2>Touch</h2>
        <TouchTable voices={report.voices} dynamics={report.dynamics} />
      </section>
      {perBar.length > 1 && tempoBpm !== null ? (
        <section>
          <h2>Along the take</h2>
          <LeanAlong
            perBar={perBar}
            drift={{ driftPercent, start, barSeconds: beatsPerBar(groove.metre) * beatSeconds(tempoBpm) }}
            {...bandAndLimit(report)}
          />
        </section>
      ) : null}
      <MoreAboutThisTake report={report} gapDrifts={gapDrifts} />
    </>
  );
}

function takeMarks(
  report: Report | undefined,
  hearing: Hearing,
  groove: Groove | undefined,
  hits: readonly Hit[],
): readonly PlayedMark[] {
  if (report && groove) return strayMarks(report, groove, report.band.halfBandMs);
  return hearing.kind === "heard" ? marksByPulse(hits, hearing.pulse) : [];
}

function ringLabel(hearing: Hearing, groove: Groove | undefined): string {
  const bars = hearing.kind === "heard" ? `, ${formatBars(hearing.span.bars)} laid over one another` : "";
  return `Bar ring of ${groove?.name ?? "what was played"}${bars}`;
}

function workWords(report: Report | undefined, hearing: Hearing, calledName: string | undefined): string {
  if (calledName !== undefined && isAnother(hearing, calledName)) return asksForWords(calledName);
  return report ? workOnWords(report.workOn, report.band.halfBandMs) : unmatchedWords(hearing);
}

function unmatchedWords(hearing: Hearing): string {
  return hearing.kind === "heard"
    ? "It is none of the grooves I know, so I compare it with nothing. The ring shows what was played."
    : "There is nothing to compare yet.";
}
