/**
 * Learns the bars of grooves in general. Method: expectation maximisation of a mixture of Poisson bars over four-bar
 * windows, each take counting alike whatever its length.
 */
import {
  addBlurred,
  PLACES_PER_BEAT,
  ROLE_COUNT,
  SOUND_ROLES,
  strokesOfHits,
} from "../../engine/listening/learning.ts";
import { seededChance } from "../../engine/units/index.ts";
import type { Take } from "./takes.ts";

const WINDOW_BARS = 4;
const COMPONENTS_IN_FOUR = 56;
const COMPONENTS_IN_THREE = 4;
const ROUNDS = 30;
/** Weight, in bars, of the average bar in every component. */
const PRIOR_BARS = 0.6;
/** Share of a priori belief that a bar has three beats. Common practice, no source. */
const SHARE_OF_THREE = 0.05;

interface Window {
  readonly counts: Float64Array;
  readonly bars: number;
  readonly weight: number;
  readonly logTempo: number;
}

interface Component {
  share: number;
  rates: Float64Array;
  tempoLogMean: number;
  tempoLogSd: number;
}

/** One bar as `bar-templates.json` holds it. */
export interface LearntBar {
  readonly beats: number;
  readonly share: number;
  readonly tempoLogMean: number;
  readonly tempoLogSd: number;
  readonly rates: readonly number[];
}

/** The bars these takes are made of. */
export function learnBars(takes: readonly Take[]): readonly LearntBar[] {
  return [
    {
      beats: 4,
      share: 1 - SHARE_OF_THREE,
      components: learn(windowsOf(takes, 4), 4, COMPONENTS_IN_FOUR),
    },
    { beats: 3, share: SHARE_OF_THREE, components: learn(windowsOf(takes, 3), 3, COMPONENTS_IN_THREE) },
  ].flatMap(({ beats, share, components }) => {
    const whole = components.reduce((sum, component) => sum + component.share, 0);
    return components.map((component) => ({
      beats,
      share: Number(((component.share / whole) * share).toFixed(6)),
      tempoLogMean: Number(component.tempoLogMean.toFixed(4)),
      tempoLogSd: Number(component.tempoLogSd.toFixed(4)),
      rates: Array.from(component.rates, (rate) => Math.round(rate * 1000)),
    }));
  });
}

function windowsOf(takes: readonly Take[], beatsInBar: number): readonly Window[] {
  return takes.filter((take) => take.beatsInBar === beatsInBar).flatMap(takeWindows);
}

function takeWindows({ hits, tempoBpm, beatsInBar }: Take): readonly Window[] {
  const strokes = strokesOfHits(hits);
  const places = beatsInBar * PLACES_PER_BEAT;
  const lastBeat = ((strokes.at(-1)?.time ?? 0) * tempoBpm) / 60;
  const bars = Math.floor(lastBeat / beatsInBar + 0.5);
  const count = Math.max(1, Math.floor(bars / WINDOW_BARS));
  if (bars < 2) return [];
  const windows = Array.from({ length: count }, () => new Float64Array(ROLE_COUNT * places));
  for (const { time, sound, weight } of strokes) {
    const beat = (time * tempoBpm) / 60;
    const window =
      windows[Math.min(count - 1, Math.max(0, Math.floor((beat + 0.1) / (beatsInBar * WINDOW_BARS))))];
    if (!window) continue;
    for (const role of SOUND_ROLES[sound] ?? [])
      addBlurred(window, { places, role, place: beat * PLACES_PER_BEAT }, weight);
  }
  return windows.map((counts, index) => ({
    counts,
    bars: index === count - 1 ? bars - WINDOW_BARS * (count - 1) : WINDOW_BARS,
    weight: 1 / Math.sqrt(count),
    logTempo: Math.log(tempoBpm),
  }));
}

function learn(windows: readonly Window[], beatsInBar: number, componentCount: number): Component[] {
  const chance = seededChance(20261125);
  const size = ROLE_COUNT * beatsInBar * PLACES_PER_BEAT;
  const average = new Float64Array(size);
  const allBars = windows.reduce((sum, { bars, weight }) => sum + bars * weight, 0);
  for (const { counts, weight } of windows)
    for (let at = 0; at < size; at += 1) add(average, at, (counts[at] ?? 0) * weight);
  for (let at = 0; at < size; at += 1) average[at] = (average[at] ?? 0) / allBars;
  let components: Component[] = Array.from({ length: componentCount }, () => {
    const seed = windows[Math.floor(chance() * windows.length)];
    return {
      share: 1 / componentCount,
      rates: Float64Array.from(
        average,
        (rate, at) => 0.7 * ((seed?.counts[at] ?? 0) / (seed?.bars ?? 1)) + 0.3 * rate,
      ),
      tempoLogMean: seed?.logTempo ?? Math.log(110),
      tempoLogSd: 0.3,
    };
  });
  for (let round = 0; round < ROUNDS; round += 1) components = oneRound(windows, components, average);
  return components.filter(({ share }) => share > 0.2 / componentCount);
}

function add(array: Float64Array, at: number, value: number): void {
  array[at] = (array[at] ?? 0) + value;
}

function oneRound(
  windows: readonly Window[],
  components: readonly Component[],
  average: Float64Array,
): Component[] {
  const logs = components.map(({ rates }) => rates.map((rate) => Math.log(rate + 7e-4)));
  const totals = components.map(({ rates }) => rates.reduce((sum, rate) => sum + rate, 0));
  const sums = components.map(() => ({
    counts: new Float64Array(average.length),
    bars: 0,
    weight: 0,
    tempo: 0,
    tempo2: 0,
  }));
  for (const window of windows) {
    const scores = components.map((component, index) => {
      let score = Math.log(component.share) - window.bars * (totals[index] ?? 0);
      const log = logs[index];
      for (let at = 0; at < average.length; at += 1) {
        const count = window.counts[at] ?? 0;
        if (count > 0) score += count * (log?.[at] ?? 0);
      }
      return score;
    });
    const most = Math.max(...scores);
    const shares = scores.map((score) => Math.exp(score - most));
    const whole = shares.reduce((sum, share) => sum + share, 0);
    shares.forEach((share, index) => {
      const sum = sums[index];
      const weight = (share / whole) * window.weight;
      if (!sum || weight < 1e-6) return;
      for (let at = 0; at < average.length; at += 1) add(sum.counts, at, (window.counts[at] ?? 0) * weight);
      sum.bars += window.bars * weight;
      sum.weight += weight;
      sum.tempo += window.logTempo * weight;
      sum.tempo2 += window.logTempo ** 2 * weight;
    });
  }
  const allWeight = sums.reduce((sum, { weight }) => sum + weight, 0);
  return sums.map((sum) => {
    const mean = sum.weight > 0 ? sum.tempo / sum.weight : Math.log(110);
    const variance = sum.weight > 0 ? Math.max(0, sum.tempo2 / sum.weight - mean * mean) : 0;
    return {
      share: Math.max(sum.weight / allWeight, 1e-6),
      rates: Float64Array.from(
        average,
        (rate, at) => ((sum.counts[at] ?? 0) + PRIOR_BARS * rate) / (sum.bars + PRIOR_BARS),
      ),
      tempoLogMean: mean,
      // Never narrower than a quarter: players take the same groove at many tempos.
      tempoLogSd: Math.sqrt(variance + 0.25 ** 2),
    };
  });
}
