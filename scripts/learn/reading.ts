/**
 * Questions for learning how to read bars: stretches cut anywhere out of human takes, the features of each bar a stretch
 * could be, and which of them it is.
 */
import {
  type Background,
  type BarHypothesis,
  featuresOfBars,
  likelyBars,
  likelyPulses,
  PLACES_PER_BEAT,
  pulseHypotheses,
  strokesOfHits,
  timeOfBeat,
} from "../../engine/listening/learning.ts";
import { type Chance, seededChance } from "../../engine/units/index.ts";
import type { Question } from "./regression.ts";
import type { Take } from "./takes.ts";

const BARS_ASKED = [8, 4, 2];
const MOST_STRETCHES = 6;
/** Tempo within 4 % and downbeat within 70 ms: accuracy 1 of Gouyon et al. 2006, and the window of beat measures. */
const TEMPO_SLACK = 0.04;
const DOWNBEAT_SLACK_SECONDS = 0.07;

/** Questions cut out of these takes, read with grooves in general that have not met their player. */
export function readingQuestions(
  takes: readonly Take[],
  general: Background,
  seed: number,
): readonly Question[] {
  const chance = seededChance(seed);
  return takes.flatMap((take) => BARS_ASKED.flatMap((bars) => questionsAbout(take, bars, general, chance)));
}

function questionsAbout(take: Take, bars: number, general: Background, chance: Chance): readonly Question[] {
  const barSeconds = (take.beatsInBar * 60) / take.tempoBpm;
  const seconds = bars * barSeconds;
  const spare = (take.hits.at(-1)?.time ?? 0) - seconds;
  if (spare < 0) return [];
  const count = Math.max(1, Math.min(MOST_STRETCHES, Math.round((1.5 * (spare + seconds)) / seconds)));
  return Array.from({ length: count }).flatMap(() => {
    const from = chance() * spare;
    const hits = take.hits.filter(({ time }) => time >= from && time < from + seconds);
    const likely = likelyBars(likelyPulses(pulseHypotheses(strokesOfHits(hits), general), general), general);
    const right = likely.map((bar) => isRight(bar, take, from + seconds / 2));
    if (!right.includes(true) || !right.includes(false)) return [];
    const features = featuresOfBars(likely).map((own) => Float64Array.from(own));
    return [{ group: take.id, features, right }];
  });
}

function isRight({ pulse, beatsInBar, turn }: BarHypothesis, take: Take, middle: number): boolean {
  if (beatsInBar !== take.beatsInBar) return false;
  if (Math.abs(60 / pulse.beatSeconds / take.tempoBpm - 1) > TEMPO_SLACK) return false;
  const phase = turn / PLACES_PER_BEAT;
  const { times, beats } = pulse.map;
  const at = Math.max(0, times.findIndex((time) => time > middle) - 1);
  const downbeat = timeOfBeat(
    pulse.map,
    phase + Math.round(((beats[at] ?? 0) - phase) / beatsInBar) * beatsInBar,
  );
  const bars = (downbeat * take.tempoBpm) / 60 / beatsInBar;
  return (Math.abs(bars - Math.round(bars)) * beatsInBar * 60) / take.tempoBpm <= DOWNBEAT_SLACK_SECONDS;
}
