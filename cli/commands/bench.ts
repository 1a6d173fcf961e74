import { availableParallelism } from "node:os";
import { type GradingFigures, gradingFigures } from "../bench/gradingFigures.ts";
import { type ListeningFigures, listeningFigures } from "../bench/listeningFigures.ts";
import type { Share } from "../bench/share.ts";
import { rounded } from "../heard.ts";
import type { Outlet } from "../outlet.ts";
import { readArguments } from "../usage.ts";
import { UsageError } from "../usageError.ts";

/** `bench`: what the engine costs on this machine, and how often it names a style. Whatever is measured, it is no failure. */
export async function benchCommand(args: readonly string[], outlet: Outlet): Promise<boolean> {
  const { values, positionals } = readArguments(args, { json: { type: "boolean", default: false } });
  const [stray] = positionals;
  if (stray !== undefined) throw new UsageError(`"${stray}" is not understood here: bench takes no files.`);
  const grading = gradingFigures();
  const listening = listeningFigures();
  if (values.json) await outlet.line(JSON.stringify(asJson(grading, listening)));
  else for (const line of asText(grading, listening)) await outlet.line(line);
  return true;
}

function asJson(grading: GradingFigures, listening: ListeningFigures): object {
  const { rethink, hear8Bars, hear32Bars, named8Bars, named4Bars } = listening;
  return {
    machine: { node: process.versions.node, processors: availableParallelism() },
    strokesPerSecond: Math.round(grading.strokesPerSecond),
    gradeHitP99Ms: rounded(grading.hitP99Ms),
    listenHitP99Ms: rounded(listening.addP99Ms),
    rethinkMeanMs: rounded(rethink.meanMs),
    rethinkP95Ms: rounded(rethink.p95Ms),
    hear8BarsMs: rounded(hear8Bars.meanMs),
    hear32BarsMs: rounded(hear32Bars.meanMs),
    align10000Ms: rounded(grading.align10000Ms),
    align20000Ms: rounded(grading.align20000Ms),
    named8Bars: shareJson(named8Bars),
    named4Bars: shareJson(named4Bars),
  };
}

function shareJson({ right, asked, low, high }: Share): object {
  return { right, asked, share: rounded(right / asked), low: rounded(low), high: rounded(high) };
}

function asText(grading: GradingFigures, listening: ListeningFigures): readonly string[] {
  const { rethink, hear8Bars, hear32Bars } = listening;
  const ms = (value: number, places: number): string => `${value.toFixed(places)} ms`;
  return [
    `Measured with Node ${process.versions.node} on ${availableParallelism()} processors.`,
    `  whole takes graded              ${Math.round(grading.strokesPerSecond)} strokes a second`,
    `  one hit graded                  99 of 100 within ${ms(grading.hitP99Ms, 4)}`,
    `  one hit taken in by listening   99 of 100 within ${ms(listening.addP99Ms, 4)}`,
    `  thinking again while playing    mean ${ms(rethink.meanMs, 1)}, 95 of 100 within ${ms(rethink.p95Ms, 1)}`,
    `  a hearing of 8 bars             mean ${ms(hear8Bars.meanMs, 1)}`,
    `  a hearing of 32 bars            mean ${ms(hear32Bars.meanMs, 1)}`,
    `  10,000 hits aligned             ${ms(grading.align10000Ms, 1)}`,
    `  20,000 hits aligned             ${ms(grading.align20000Ms, 1)}`,
    `  styles named at 8 bars          ${shareWords(listening.named8Bars)}`,
    `  styles named at 4 bars          ${shareWords(listening.named4Bars)}`,
  ];
}

function shareWords({ right, asked, low, high }: Share): string {
  const hundredths = (share: number): string => (100 * share).toFixed(1);
  return `${right} of ${asked} (${hundredths(right / asked)} %, 95 % interval ${hundredths(low)} to ${hundredths(high)} %)`;
}
