import { styleById } from "../../engine/catalogue/index.ts";
import { Grader, gradeTake, grooveTarget } from "../../engine/grading/index.ts";
import type { Hit } from "../../engine/kit/index.ts";
import type { Groove } from "../../engine/score/index.ts";
import type { Milliseconds } from "../../engine/units/index.ts";
import { clickedTake } from "./benchTakes.ts";
import { costsOf, timed, untilTimeIsUp } from "./stopwatch.ts";

/** What grading costs on this machine. */
export interface GradingFigures {
  /** Whole takes with their reports. */
  readonly strokesPerSecond: number;
  /** One hit more, late in a take of 20,000. */
  readonly hitP99Ms: Milliseconds;
  readonly align10000Ms: Milliseconds;
  readonly align20000Ms: Milliseconds;
}

const TEMPO_BPM = 96;
const STYLE = "funk-sixteenths";
const MOST_MS: Milliseconds = 1500;

export function gradingFigures(): GradingFigures {
  const groove = styleById(STYLE)?.variants[0];
  if (!groove) throw new Error(`The catalogue has no ${STYLE} to measure on.`);
  gradedIn(groove, 64);
  const rates: number[] = [];
  untilTimeIsUp([64, 64, 64, 128, 128, 128], MOST_MS, (bars) => {
    const { strokes, ms } = gradedIn(groove, bars);
    rates.push((1000 * strokes) / ms);
  });
  const short: Milliseconds[] = [];
  const long: Milliseconds[] = [];
  const perHit: Milliseconds[] = [];
  // Turn about, so that what else the machine does slows both alike.
  untilTimeIsUp([0, 1, 2, 3], 2 * MOST_MS, () => {
    short.push(alignedIn(groove, 10_000).ms);
    const { ms, costs } = alignedIn(groove, 20_000);
    long.push(ms);
    perHit.push(...costs.slice(10_000));
  });
  return {
    strokesPerSecond: Math.max(...rates),
    hitP99Ms: costsOf(perHit).p99Ms,
    align10000Ms: Math.min(...short),
    align20000Ms: Math.min(...long),
  };
}

function gradedIn(groove: Groove, bars: number): { readonly strokes: number; readonly ms: Milliseconds } {
  const hits = clickedTake(groove, TEMPO_BPM, bars, bars);
  const target = grooveTarget(groove, { tempoBpm: TEMPO_BPM, bars });
  return { strokes: hits.length, ms: timed(() => gradeTake(hits, target, { start: "shared" })) };
}

function alignedIn(
  groove: Groove,
  count: number,
): { readonly ms: Milliseconds; readonly costs: readonly Milliseconds[] } {
  const bars = Math.ceil((1.1 * count) / groove.notes.length) * groove.bars;
  const hits: readonly Hit[] = clickedTake(groove, TEMPO_BPM, bars, 1).slice(0, count);
  const grader = new Grader(grooveTarget(groove, { tempoBpm: TEMPO_BPM, bars }), { start: "shared" });
  const costs = hits.map((hit) => timed(() => grader.hear(hit)));
  return { ms: costs.reduce((sum, cost) => sum + cost, 0), costs };
}
