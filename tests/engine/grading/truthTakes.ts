/**
 * Takes of which the truth is known: every hit knows the note it was made from, or that it was made from none.
 */
import type { Report, Target } from "../../../engine/grading/index.ts";
import { type Hit, VOICES, type Voice } from "../../../engine/kit/index.ts";
import { DYNAMIC_VELOCITY } from "../../../engine/score/index.ts";
import { type Chance, normal } from "../../../engine/units/index.ts";
import { strike } from "./takes.ts";

/** How a take differs from what is written. */
export interface Slips {
  /** Shares of the written strokes. */
  readonly dropped: number;
  readonly extras: number;
  readonly wrongVoices: number;
  /** Strokes that get a soft one 20 to 40 ms before them. */
  readonly flams: number;
  /** Strokes the pad reports twice, 3 to 12 ms apart, the second one soft. */
  readonly doubles: number;
  /** Seconds gained by the player in each second: the take is `1 − drift` as long. */
  readonly drift: number;
  readonly leanMs: number;
  readonly spreadMs: number;
}

export const NO_SLIPS: Slips = {
  dropped: 0,
  extras: 0,
  wrongVoices: 0,
  flams: 0,
  doubles: 0,
  drift: 0,
  leanMs: 0,
  spreadMs: 0,
};

/** The slips of an ordinary pupil; lean, spread and drift are drawn. */
export function pupilSlips(chance: Chance): Slips {
  return {
    dropped: 0.05,
    extras: 0.05,
    wrongVoices: 0.03,
    flams: 0.02,
    doubles: 0.02,
    drift: 0.02 * chance() - 0.01,
    leanMs: 50 * chance() - 25,
    spreadMs: 5 + 20 * chance(),
  };
}

export interface TruthTake {
  readonly hits: readonly Hit[];
  /** Index of the note each hit was made from; hits made from none are missing. */
  readonly madeFrom: ReadonlyMap<Hit, number>;
  /** Chance part of each stroke's offset, in milliseconds: lean and drift left out. */
  readonly noiseMs: readonly number[];
  /** Lean and chance of each hit that was made from a note, in milliseconds. */
  readonly ownOffsetMs: ReadonlyMap<Hit, number>;
  /** Whole offset of each stroke against its note. */
  readonly offsetsMs: readonly number[];
}

/**
 * @param moved where a moment of the target falls in the take, for takes that start or run otherwise than written.
 * @param kept which notes are played at all.
 */
export function truthTake(
  target: Target,
  slips: Slips,
  chance: Chance,
  moved: (time: number) => number = (time) => time,
  kept: (index: number) => boolean = () => true,
): TruthTake {
  const madeFrom = new Map<Hit, number>();
  const ownOffsetMs = new Map<Hit, number>();
  const others: Hit[] = [];
  const noiseMs: number[] = [];
  const offsetsMs: number[] = [];
  const voices = [...new Set(target.notes.map(({ voice }) => voice))];
  const notes = target.notes.filter(({ index }) => kept(index));
  for (const { index, time, voice, dynamic, ornament } of notes) {
    if (chance() < slips.dropped) continue;
    const noise = slips.spreadMs * normal(chance);
    const at = moved(time) * (1 - slips.drift) + (slips.leanMs + noise) / 1000;
    const velocity = Math.min(1, Math.max(0.02, DYNAMIC_VELOCITY[dynamic] + 0.07 * normal(chance)));
    const heard = chance() < slips.wrongVoices ? anotherVoice(voice, voices, chance) : voice;
    const hit = strike(at, heard, velocity);
    madeFrom.set(hit, index);
    ownOffsetMs.set(hit, slips.leanMs + noise);
    noiseMs.push(noise);
    offsetsMs.push((at - time) * 1000);
    if (ornament || chance() < slips.flams)
      others.push(strike(at - 0.02 - 0.02 * chance(), heard, velocity * 0.4));
    if (chance() < slips.doubles) others.push(strike(at + 0.003 + 0.009 * chance(), heard, velocity * 0.3));
  }
  const times = notes.map(({ time }) => moved(time) * (1 - slips.drift));
  const from = Math.min(...times);
  const length = Math.max(...times) - from;
  for (let count = Math.round(notes.length * slips.extras); count > 0; count -= 1) {
    const voice = voices[Math.floor(chance() * voices.length)] ?? "snare";
    others.push(strike(from + chance() * length, voice, DYNAMIC_VELOCITY.plain));
  }
  const hits = [...madeFrom.keys(), ...others].sort((a, b) => a.time - b.time);
  return { hits, madeFrom, ownOffsetMs, noiseMs, offsetsMs };
}

const KIT: readonly Voice[] = VOICES.slice(0, 12);

/** Half of the wrong sounds are another one of the groove, half any of the kit. */
function anotherVoice(voice: Voice, voices: readonly Voice[], chance: Chance): Voice {
  const from = (chance() < 0.5 ? voices : KIT).filter((other) => other !== voice);
  return from[Math.floor(chance() * from.length)] ?? "snare";
}

/** Pairs found, pairs found rightly, and pairs there are. */
export interface PairCounts {
  found: number;
  right: number;
  made: number;
}

type Matched = Extract<Report["hits"][number], { readonly state: "matched" }>;

/**
 * @param isRight whether a hit found its note; `made` is the note it was made from. The same note, unless said.
 */
export function countPairs(
  { madeFrom }: Pick<TruthTake, "madeFrom">,
  report: Pick<Report, "hits">,
  counts: PairCounts,
  isRight: (judged: Matched, made: number) => boolean = ({ targetIndex }, made) => targetIndex === made,
): void {
  counts.made += madeFrom.size;
  for (const judged of report.hits) {
    if (judged.state !== "matched") continue;
    counts.found += 1;
    const made = madeFrom.get(judged.hit);
    if (made !== undefined && isRight(judged, made)) counts.right += 1;
  }
}

/** 2PR/(P + R). */
export function pairF1({ found, right, made }: PairCounts): number {
  return (2 * right) / (found + made);
}

/** The 95 % interval of a proportion (Wilson, J. Am. Stat. Assoc. 22 (1927) 209–212). */
export function wilson(right: number, of: number): readonly [number, number] {
  const z = 1.959964;
  const share = right / of;
  const middle = (share + z ** 2 / (2 * of)) / (1 + z ** 2 / of);
  const half = (z / (1 + z ** 2 / of)) * Math.sqrt((share * (1 - share)) / of + z ** 2 / (4 * of ** 2));
  return [middle - half, middle + half];
}
