/**
 * Learns the bars of grooves in general (engine/listening/bar-templates.json) from human takes.
 *
 *     npx vite build --mode learn-bars && node dist/scripts/learn-bars.js DATASET [--without drummer7,drummer9] [--out FILE]
 *
 * DATASET is a folder laid out as the Groove MIDI Dataset v1.0.0 (info.csv and its takes, played to a click
 * that starts at time 0). Method: expectation maximisation of a mixture of Poisson bars over four-bar windows,
 * each take counting alike whatever its length.
 */
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { readSmf, strikesOf } from "../engine/formats/index.ts";
import { parseKitMap } from "../engine/kit/index.ts";
import { addBlurred, PLACES_PER_BEAT, ROLE_COUNT, strokesOfHits } from "../engine/listening/learning.ts";
import { seededChance } from "../engine/units/index.ts";
import wideMap from "../kit-maps/wide-nine-piece.json" with { type: "json" };

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

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    without: { type: "string", default: "" },
    out: { type: "string", default: "engine/listening/bar-templates.json" },
  },
});
const without = new Set<string | undefined>(values.without.split(","));
const dataset = positionals[0];
if (!dataset) throw new Error("Say where the dataset is: node dist/scripts/learn-bars.js DATASET");

const map = parseKitMap(wideMap, "wide-nine-piece.json");
const lines = readFileSync(join(dataset, "info.csv"), "utf8").trim().split(/\r?\n/);
const columns = (lines[0] ?? "").split(",");
const rows = lines.slice(1).map((line) => {
  const cells = line.split(",");
  return Object.fromEntries(columns.map((column, index) => [column, cells[index] ?? ""]));
});

/** Takes the dataset's own notes call unreliable in time. */
function unreliable(id: string): boolean {
  const found = /^(drummer\d+)\/(session\d+)\/(\d+)/.exec(id);
  const number = Number(found?.[3]);
  const session = `${found?.[1]}/${found?.[2]}`;
  return (
    session === "drummer2/session2" ||
    (session === "drummer2/session1" && number === 1) ||
    (session === "drummer1/session2" && (number === 2 || (number >= 33 && number <= 37)))
  );
}

function windowsOf(timeSignature: string, beatsInBar: number): Window[] {
  const windows: Window[] = [];
  for (const row of rows) {
    if (row.beat_type !== "beat" || row.time_signature !== timeSignature) continue;
    if (without.has(row.drummer) || unreliable(row.id ?? "")) continue;
    windows.push(...takeWindows(join(dataset ?? "", row.midi_filename ?? ""), Number(row.bpm), beatsInBar));
  }
  return windows;
}

function takeWindows(path: string, tempoBpm: number, beatsInBar: number): Window[] {
  const strokes = strokesOfHits(strikesOf(readSmf(readFileSync(path)), map));
  const places = beatsInBar * PLACES_PER_BEAT;
  const lastBeat = ((strokes.at(-1)?.time ?? 0) * tempoBpm) / 60;
  const bars = Math.floor(lastBeat / beatsInBar + 0.5);
  const count = Math.max(1, Math.floor(bars / WINDOW_BARS));
  if (bars < 2) return [];
  const windows = Array.from({ length: count }, () => new Float64Array(ROLE_COUNT * places));
  for (const { time, role, weight } of strokes) {
    const beat = (time * tempoBpm) / 60;
    const window =
      windows[Math.min(count - 1, Math.max(0, Math.floor((beat + 0.1) / (beatsInBar * WINDOW_BARS))))];
    if (window) addBlurred(window, { places, role, place: beat * PLACES_PER_BEAT }, weight);
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

const written = [
  { beats: 4, share: 1 - SHARE_OF_THREE, components: learn(windowsOf("4-4", 4), 4, COMPONENTS_IN_FOUR) },
  { beats: 3, share: SHARE_OF_THREE, components: learn(windowsOf("3-4", 3), 3, COMPONENTS_IN_THREE) },
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
writeFileSync(values.out, `${JSON.stringify({ components: written })}\n`);
console.log(`${written.length} bars learnt from ${rows.length} listed takes, written to ${values.out}.`);
