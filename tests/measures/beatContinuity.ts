/**
 * How long beats stay right: CMLc, CMLt, AMLc, AMLt.
 * Source: Hainsworth 2004; Klapuri, Eronen & Astola, IEEE TASLP 14 (2006); Davies, Degara & Plumbley, QMUL C4DM-TR-09-06
 * (2009); details as in mir_eval (Raffel et al., ISMIR 2014), `beat.continuity`. A beat is right when its time and its
 * interval are within 17.5 % of the reference interval. CML: at the annotated level; AML: also off the beat, at double,
 * and at half the tempo (both phases). c: the longest unbroken run; t: all that are right.
 */
import type { Seconds } from "../../engine/units/index.ts";

type Beats = readonly Seconds[];

const PHASE = 0.175;
const PERIOD = 0.175;

export interface Continuity {
  readonly cmlC: number;
  readonly cmlT: number;
  readonly amlC: number;
  readonly amlT: number;
}

/** All are 0 where either side has fewer than two beats. */
export function continuity(reference: Beats, estimated: Beats): Continuity {
  if (reference.length < 2 || estimated.length < 2) return { cmlC: 0, cmlT: 0, amlC: 0, amlT: 0 };
  const levels = metricalLevels(reference).map((level) => atLevel(level, estimated));
  return {
    cmlC: levels[0]?.longest ?? 0,
    cmlT: levels[0]?.all ?? 0,
    amlC: Math.max(...levels.map(({ longest }) => longest)),
    amlT: Math.max(...levels.map(({ all }) => all)),
  };
}

/** As annotated, off the beat, double, and half in both phases. */
function metricalLevels(reference: Beats): readonly Beats[] {
  const double = reference.flatMap((time, index) => {
    const next = reference[index + 1];
    return next === undefined ? [time] : [time, (time + next) / 2];
  });
  const every = (beats: Beats, parity: number): Beats => beats.filter((_, index) => index % 2 === parity);
  return [reference, every(double, 1), double, every(reference, 0), every(reference, 1)];
}

function atLevel(reference: Beats, estimated: Beats): { readonly longest: number; readonly all: number } {
  const count = Math.max(reference.length, estimated.length);
  if (reference.length < 2) return { longest: 0, all: 0 };
  const used = new Set<number>();
  let all = 0;
  let run = 0;
  let longest = 0;
  estimated.forEach((time, index) => {
    const at = nearestIndex(reference, time);
    const right = !used.has(at) && isRight(reference, at, estimated, index);
    if (right) {
      used.add(at);
      all += 1;
    }
    run = right ? run + 1 : 0;
    longest = Math.max(longest, run);
  });
  return { longest: longest / count, all: all / count };
}

function isRight(reference: Beats, at: number, estimated: Beats, index: number): boolean {
  // The first beat of either side has no interval before it: the one after it counts.
  const forward = index === 0 || at === 0;
  const due = intervalAt(reference, at, forward);
  const phase = Math.abs((estimated[index] ?? 0) - (reference[at] ?? 0)) / due;
  const period = Math.abs(1 - intervalAt(estimated, index, forward) / due);
  return phase < PHASE && period < PERIOD;
}

function intervalAt(beats: Beats, index: number, forward: boolean): Seconds {
  const to = forward && index + 1 < beats.length ? index + 1 : index;
  return (beats[to] ?? 0) - (beats[to - 1] ?? 0);
}

function nearestIndex(beats: Beats, time: Seconds): number {
  let best = 0;
  beats.forEach((beat, index) => {
    if (Math.abs(time - beat) < Math.abs(time - (beats[best] ?? 0))) best = index;
  });
  return best;
}
