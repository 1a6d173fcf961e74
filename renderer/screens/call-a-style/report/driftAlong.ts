/** What the drift of a take alone moves its strokes by: the ring leaves it out, since it has a chart of its own. */
import type { JudgedHit, Report } from "../../../../engine/grading/index.ts";
import { beatsPerBar, type Groove } from "../../../../engine/score/index.ts";
import { beatSeconds, type Milliseconds, type Seconds } from "../../../../engine/units/index.ts";
import { driftLine } from "../../../charts/index.ts";

type Matched = Extract<JudgedHit, { readonly state: "matched" }>;

/** The drift's part of an offset at a moment of the target; 0 everywhere where no drift is told. */
export function driftAlong(report: Report, groove: Groove): (time: Seconds) => Milliseconds {
  const { hits, tempoBpm } = report;
  if (tempoBpm === null) return () => 0;
  const barSeconds = beatsPerBar(groove.metre) * beatSeconds(tempoBpm);
  const line = driftLine({ ...report, barSeconds });
  const first = hits
    .filter((judged): judged is Matched => judged.state === "matched")
    .reduce((earliest, { targetTime }) => Math.min(earliest, targetTime), Number.POSITIVE_INFINITY);
  if (!line || !Number.isFinite(first)) return () => 0;
  // The first bar of the report is the one of the first stroke; a bar stands for its middle.
  const firstBar = Math.floor(first / barSeconds + 1e-3);
  return (time) => line(time / barSeconds - firstBar + 0.5);
}
