/** Where in what is written a moment of a take lies, and what could be said of the take so far. */
import type { Report } from "../../../engine/grading/index.ts";
import { besideGroove } from "../../../engine/rounds/index.ts";
import { beatsPerBar, type Groove } from "../../../engine/score/index.ts";
import type { Bpm, Seconds } from "../../../engine/units/index.ts";
import type { PlayedMark } from "../../charts/index.ts";
import { targetTempo } from "../../notation/targetTempo.ts";
import { strokesFolded } from "../call-a-style/report/foldedMarks.ts";
import { countUpTo } from "./moments.ts";
import type { TakeAgain } from "./takeAgain.ts";

/** A take that was compared with a groove, laid on the lesson's clock. */
export interface PlacedTake {
  readonly again: TakeAgain;
  readonly groove: Groove;
  readonly report: Report;
  /** Of the groove as it was written for this take. */
  readonly targetBpm: Bpm;
  /** Where the groove begins on the lesson's clock, and how long a written beat was as played. */
  readonly from: Seconds;
  readonly beatSeconds: Seconds;
}

/** `undefined` where the take was compared with nothing, or met nothing of it. */
export function placedTake(again: TakeAgain): PlacedTake | undefined {
  const { compared, click } = again.judgement;
  if (!compared || compared.report.workOn.kind === "no-match") return undefined;
  const { groove, report } = compared;
  const targetBpm = targetTempo(report.hits, groove);
  if (targetBpm === undefined) return undefined;
  const { time, stretch } = report.start;
  return {
    again,
    groove,
    report,
    targetBpm,
    from: (click?.from ?? 0) + time,
    beatSeconds: (60 / targetBpm) * stretch,
  };
}

/** Written beats from the beginning of the groove to a moment; below 0 before it. */
export function beatAt({ from, beatSeconds }: PlacedTake, time: Seconds): number {
  return (time - from) / beatSeconds;
}

/** The bar of the take, from 0, at a moment; held within what was played. */
export function barAt(placed: PlacedTake, time: Seconds): number {
  const { report, groove } = placed;
  const last = Math.max(0, (report.perBar.at(-1)?.bar ?? 1) - 1);
  const bar = Math.floor(beatAt(placed, time) / beatsPerBar(groove.metre) + EARLY);
  return Math.min(last, Math.max(0, bar));
}

/** A stroke so far ahead of the bar line, in bars, is of the bar that follows. Our choice. */
const EARLY = 1 / 32;

/**
 * What the grader says of the take up to the end of a bar: what it would have said, had the take been stopped there. At the
 * last bar it is the report of the whole.
 */
export function reportUpTo(placed: PlacedTake, bar: number): Report {
  const { again, groove, report } = placed;
  const last = Math.max(0, (report.perBar.at(-1)?.bar ?? 1) - 1);
  if (bar >= last) return report;
  const until = placed.from + (bar + 1 - EARLY) * beatsPerBar(groove.metre) * placed.beatSeconds;
  const hits = again.hits.filter(({ time }) => time < until);
  const { click } = again.judgement;
  const tempoBpm = click?.tempoBpm ?? report.tempoBpm ?? placed.targetBpm;
  return besideGroove(hits, groove, { tempoBpm, click, level: report.band.level });
}

/** Bars whose strokes the ring still shows: as many as while it was played. */
const BARS_SHOWN = 4;

/** All strokes of a take as the ring shows them, in order of time. */
export interface RingStrokes {
  readonly times: Float64Array;
  readonly marks: readonly PlayedMark[];
}

export function ringStrokes({ report, groove, again }: PlacedTake): RingStrokes {
  const shift = again.judgement.click?.from ?? 0;
  const strokes = strokesFolded(report, groove, report.band.halfBandMs).toSorted(
    (a, b) => a.hit.time - b.hit.time,
  );
  return {
    times: Float64Array.from(strokes, ({ hit }) => hit.time + shift),
    marks: strokes.map(({ mark }) => mark),
  };
}

/** The strokes of the latest bars, when so many of them have been played. */
export function marksUpTo(
  { groove, beatSeconds }: PlacedTake,
  { times, marks }: RingStrokes,
  count: number,
): readonly PlayedMark[] {
  const last = times[count - 1];
  if (last === undefined) return [];
  const since = last - BARS_SHOWN * beatsPerBar(groove.metre) * beatSeconds;
  return marks.slice(countUpTo(times, since), count);
}
