import type { Milliseconds } from "../../engine/units/index.ts";

/** How long a piece of work takes. */
export function timed(work: () => void): Milliseconds {
  const from = performance.now();
  work();
  return performance.now() - from;
}

/** Costs of one kind of work. */
export interface Costs {
  readonly count: number;
  readonly meanMs: Milliseconds;
  readonly p95Ms: Milliseconds;
  readonly p99Ms: Milliseconds;
}

/** Mean and percentiles (nearest rank) of at least one cost. */
export function costsOf(costs: readonly Milliseconds[]): Costs {
  const sorted = [...costs].sort((a, b) => a - b);
  const rank = (share: number): number =>
    sorted[Math.max(0, Math.ceil(share * sorted.length) - 1)] ?? Number.NaN;
  const sum = sorted.reduce((total, cost) => total + cost, 0);
  return { count: sorted.length, meanMs: sum / sorted.length, p95Ms: rank(0.95), p99Ms: rank(0.99) };
}

/**
 * Does the same to one thing after another until all are done or the time is up, so that a slow machine measures fewer
 * and is done as soon. At least one is always done.
 */
export function untilTimeIsUp<T>(things: readonly T[], most: Milliseconds, work: (thing: T) => void): void {
  const from = performance.now();
  for (const [index, thing] of things.entries()) {
    if (index > 0 && performance.now() - from > most) return;
    work(thing);
  }
}
