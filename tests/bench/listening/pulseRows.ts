/**
 * Question: is the pulse found without a click, on drummers listening has learnt nothing from?
 * Windows of eight and of four bars from random places of the held-out takes, the tempo hidden. Truth is the click the
 * players heard, not what they made of it. Windows of one take are not independent, so the intervals are a little narrow.
 */
import { hear, type Pulse } from "../../../engine/listening/index.ts";
import { seededChance } from "../../../engine/units/index.ts";
import { barsOf, type Window, windowOf } from "../../../scripts/learn/players/windows.ts";
import { continuity } from "../../measures/beatContinuity.ts";
import { informationGain } from "../../measures/beatMeasures.ts";
import { BEAT_WINDOW, matchEvents } from "../../measures/eventMatching.ts";
import { accuracy1, accuracy2 } from "../../measures/tempoAccuracy.ts";
import { BACKGROUND, type HumanTake, heldOutTakes } from "./heldOut.ts";
import { meanRow, type Row, shareRow, type Target } from "./row.ts";
import { sized } from "./size.ts";

const NO_GROOVES = { grooves: [], general: BACKGROUND };

interface Found {
  /** Tempo heard over tempo played. */
  readonly ratio: number;
  /** Beats from the last true downbeat to the one heard. */
  readonly beatsOff: number;
  readonly accuracy1: boolean;
  readonly accuracy2: boolean;
  readonly downbeat: boolean;
  readonly f: number;
  readonly cmlT: number;
  readonly amlT: number;
  readonly gain: number;
}

const NOTHING: Found = {
  ratio: Number.NaN,
  beatsOff: Number.NaN,
  accuracy1: false,
  accuracy2: false,
  downbeat: false,
  f: 0,
  cmlT: 0,
  amlT: 0,
  gain: 0,
};

const DOWNBEAT_TARGETS: ReadonlyMap<number, number> = new Map([
  [8, 0.85],
  [4, 0.78],
]);

export function pulseRows(log: (text: string) => void): readonly Row[] {
  const takes = heldOutTakes();
  const contradicted = new Set(takes.filter(crashesElsewhere).map(({ id }) => id));
  log(`Takes whose crashes gather on another beat than the click's one: ${[...contradicted].join(", ")}.`);
  const halved = new Set(takes.filter(backBeatElsewhere).map(({ id }) => id));
  log(
    `Takes whose back-beat gathers on three, or between the beats of the click: ${[...halved].join(", ")}.`,
  );
  return [8, 4].flatMap((bars) => {
    const chance = seededChance(9000 + bars);
    const long = takes.filter((take) => barsOf(take) >= bars);
    const found = Array.from({ length: sized(8, 1) }, () =>
      long.map((take) => findPulse(windowOf(take, chance() * (barsOf(take) - bars), bars))),
    ).flat();
    const outside = (ids: ReadonlySet<string>): readonly Found[] =>
      found.filter((_, index) => !ids.has(long[index % long.length]?.id ?? ""));
    log(
      `Pulse, ${bars} bars: tempo heard over played ${tally(found.map(({ ratio }) => ratio))}; ` +
        `downbeat heard so many beats after the true one ${tally(found.map(({ beatsOff }) => beatsOff))}.`,
    );
    const share = (what: string, of: (one: Found) => boolean, target?: Target): Row =>
      shareRow(`pulse, ${bars} bars, ${what}`, found.map(of), target);
    const mean = (what: string, of: (one: Found) => number): Row =>
      meanRow(`pulse, ${bars} bars, ${what}`, found.map(of));
    return [
      share("accuracy 1", (one) => one.accuracy1, bars === 8 ? { atLeast: 0.93 } : undefined),
      shareRow(
        `pulse, ${bars} bars, accuracy 1, where the back-beat agrees with the click`,
        outside(halved).map((one) => one.accuracy1),
        bars === 8 ? { atLeast: 0.93 } : undefined,
      ),
      share("accuracy 2", (one) => one.accuracy2, bars === 8 ? { atLeast: 0.98 } : undefined),
      share("downbeat within 70 ms", (one) => one.downbeat, { atLeast: DOWNBEAT_TARGETS.get(bars) ?? 1 }),
      shareRow(
        `pulse, ${bars} bars, downbeat within 70 ms, where the crashes agree with the click`,
        outside(contradicted).map((one) => one.downbeat),
        { atLeast: DOWNBEAT_TARGETS.get(bars) ?? 1 },
      ),
      mean("beat F-measure", (one) => one.f),
      mean("CMLt", (one) => one.cmlT),
      mean("AMLt", (one) => one.amlT),
      mean("information gain", (one) => one.gain),
    ];
  });
}

const FEWEST_CRASHES = 4;
/** A soft stroke on a crash is not what marks a one. */
const CRASHED_VELOCITY = 0.35;
const MOST_OF_THEM = 0.6;
const HARDLY_ANY = 0.2;

/**
 * Whether the player's crashes gather on one beat that is not the click's one. Crashes mark the one (common practice, no
 * source), so that such a player was not at one when the click was: to hear the player's one is then counted as wrong.
 */
function crashesElsewhere({ hits, bpm, beatsInBar }: HumanTake): boolean {
  const byBeat = Array<number>(beatsInBar).fill(0);
  for (const { voice, velocity, time } of hits) {
    if (!/^crash/.test(voice) || velocity <= CRASHED_VELOCITY) continue;
    const beat = Math.round((time * bpm) / 60) % beatsInBar;
    byBeat[beat] = (byBeat[beat] ?? 0) + 1;
  }
  const all = byBeat.reduce((sum, count) => sum + count, 0);
  const [onOne = 0, ...elsewhere] = byBeat;
  return all >= FEWEST_CRASHES && Math.max(...elsewhere) >= MOST_OF_THEM * all && onOne <= HARDLY_ANY * all;
}

/** Ghost notes are no back-beat. */
const BACK_BEAT_VELOCITY = 0.35;
const FEWEST_BACK_BEATS = 8;

/**
 * Whether the player's back-beat gathers on three alone, or between the beats, so that it falls on two and four of a click
 * half or twice as fast (the back-beat is on two and four: common practice, no source). Whoever hears it there is then
 * counted as wrong. The rule asks nothing of what was heard, but was made after looking at what was heard wrongly.
 */
function backBeatElsewhere({ hits, bpm, beatsInBar }: HumanTake): boolean {
  if (beatsInBar !== 4) return false;
  const byHalf = Array<number>(8).fill(0);
  for (const { voice, velocity, time } of hits) {
    if (!/^(snare|cross-stick)$/.test(voice) || velocity <= BACK_BEAT_VELOCITY) continue;
    const half = Math.round((time * bpm) / 30) % 8;
    byHalf[half] = (byHalf[half] ?? 0) + 1;
  }
  const on = (...halves: readonly number[]): number =>
    halves.reduce((sum, half) => sum + (byHalf[half] ?? 0), 0);
  const all = on(...byHalf.keys());
  const elsewhere = Math.max(on(4), on(1, 3, 5, 7));
  return all >= FEWEST_BACK_BEATS && elsewhere >= 0.4 * all && on(2, 6) <= 0.5 * elsewhere;
}

function findPulse(window: Window): Found {
  const hearing = hear(window.hits, NO_GROOVES);
  return hearing.kind === "heard" ? judged(hearing.pulse, window) : NOTHING;
}

/** Beats are judged from the first strike to the last: before and after there is nothing to hear. No beats are trimmed. */
function judged(pulse: Pulse, window: Window): Found {
  const from = (window.hits[0]?.time ?? 0) - BEAT_WINDOW;
  const to = (window.hits.at(-1)?.time ?? 0) + BEAT_WINDOW;
  const truth = window.beats.filter((time) => time >= from && time <= to);
  const beats = pulse.beats.filter((time) => time >= from && time <= to);
  const { cmlT, amlT } = continuity(truth, beats);
  // One downbeat in the middle, so that a half-bar's shift is wrong and not half right.
  const middle = pulse.downbeats[Math.floor(pulse.downbeats.length / 2)] ?? Number.NaN;
  return {
    ratio: pulse.tempoBpm / window.tempoBpm,
    // To the nearest half; just before a downbeat is on it.
    beatsOff: (Math.round(beatsFromDownbeat(middle, window) * 2) / 2) % window.beatsInBar,
    accuracy1: accuracy1(pulse.tempoBpm, window.tempoBpm),
    accuracy2: accuracy2(pulse.tempoBpm, window.tempoBpm),
    downbeat: isOnDownbeat(middle, window),
    f: matchEvents(truth, beats, BEAT_WINDOW).f,
    cmlT,
    amlT,
    gain: informationGain(truth, beats),
  };
}

/** Bars go on beyond the window: a downbeat may be heard just outside it. From 0 to below the beats in a bar. */
function beatsFromDownbeat(time: number, { downbeats, tempoBpm, beatsInBar }: Window): number {
  const beats = ((time - (downbeats[0] ?? Number.NaN)) * tempoBpm) / 60;
  return ((beats % beatsInBar) + beatsInBar) % beatsInBar;
}

function isOnDownbeat(time: number, window: Window): boolean {
  const after = beatsFromDownbeat(time, window);
  return (Math.min(after, window.beatsInBar - after) * 60) / window.tempoBpm <= BEAT_WINDOW;
}

/** How often each value came, to the nearest half, most often first. */
function tally(values: readonly number[]): string {
  const counts = new Map<number, number>();
  for (const value of values) {
    const near = Math.round(value * 2) / 2;
    counts.set(near, (counts.get(near) ?? 0) + 1);
  }
  return [...counts]
    .sort((a, b) => b[1] - a[1])
    .map(([value, count]) => `${value}: ${count}`)
    .join(", ");
}
