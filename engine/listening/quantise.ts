/**
 * Question: what was played, written down, and where could it be written otherwise?
 * Method: the strokes are laid on the beats that were heard; grace strokes are folded into flams and drags; swing is taken
 * out and written as a feel; each beat gets the grid that fits it (see `quantising/grids.ts`); strength becomes ghost, plain
 * and accent by the player's own range. Where a second reading is nearly as likely the place is listed, so that a screen
 * asks there and nowhere else.
 */
import { type Hit, VOICES, type Voice } from "../kit/index.ts";
import {
  beatsPerBar,
  type Dynamic,
  type Feel,
  type Groove,
  inOrder,
  isCompound,
  type Metre,
  type Note,
} from "../score/index.ts";
import { type Bpm, type Fraction, fraction, type Seconds } from "../units/index.ts";
import type { Heard, Pulse } from "./hearing.ts";
import { type BeatCount, beatCount } from "./quantising/beatCount.ts";
import { feelHeard, writtenBeat } from "./quantising/feelHeard.ts";
import { mainStrokes } from "./quantising/graces.ts";
import { dividedBeats } from "./quantising/grids.ts";
import { type Touch, touchesHeard } from "./quantising/touch.ts";
import { isUnsure, type Reading, type Unsure, unsurePlaces } from "./quantising/unsure.ts";

export type { Unsure } from "./quantising/unsure.ts";

/** A take written down. Notes are in order of position, then of voice; position 0 is the first bar line. */
export interface Quantised {
  readonly metre: Metre;
  readonly feel: Feel;
  readonly tempoBpm: Bpm;
  /** Whole bars, from the one with the first stroke to the one with the last. */
  readonly bars: number;
  readonly voices: readonly Voice[];
  readonly notes: readonly Note[];
  /** For each note the index of its hit, of those that were given; grace strokes have none of their own. */
  readonly hitOf: readonly number[];
  /** When each bar begins, and when the last one ends: one more than there are bars. */
  readonly barTimes: readonly Seconds[];
  /** In order of place. */
  readonly unsure: readonly Unsure[];
}

/** What quantising needs of a hearing. */
export type Heading = { readonly pulse: Pulse } & Pick<Heard, "swing">;

/**
 * Writes a take down.
 *
 * @param hits in order of time, the hits that were heard; retriggers already taken out.
 * @param heard the pulse and the swing, as `hear` gives them or as a file's own tempo and metre say.
 * @example
 * quantise(hits, hear(hits, stock)).notes[0]?.position // => { num: 0, den: 1 }
 */
export function quantise(hits: readonly Hit[], heard: Heading): Quantised {
  const { pulse } = heard;
  const count = beatCount(pulse);
  const mains = mainStrokes(hits);
  const touches = touchesHeard(mains.map(({ hit }) => hit));
  const played = mains.map(({ hit }) => count.beatOf(hit.time));
  const feel = isCompound(pulse.metre) ? { kind: "straight" as const } : feelHeard(heard.swing, played);
  const beatsInBar = beatsPerBar(pulse.metre);
  const beats = dividedBeats(
    mains.map(({ hit }, index) => ({ beat: writtenBeat(feel, played[index] ?? 0), voice: hit.voice })),
    { beatsInBar, compound: isCompound(pulse.metre), beatSeconds: count.secondsOf },
  );

  const firstBar = firstBarOf(beats, beatsInBar);
  const origin = firstBar * beatsInBar;
  const readings = beats.flatMap((beat): readonly Reading[] =>
    beat.strokes.flatMap((stroke, at) => {
      const main = mains[stroke];
      const touch = touches[stroke];
      const [{ parts, places }] = beat.divisions;
      if (!main || !touch) return [];
      const position = fraction((beat.beat - origin) * parts + (places[at] ?? 0), parts);
      return [{ beat, at, origin, hitIndex: main.hitIndex, touch, note: noteOf(main, touch, position) }];
    }),
  );
  const voices = voicesIn(readings.map(({ note }) => note.voice));
  const written = withoutTwins(readings, voices);
  const lastBar = Math.floor(
    (written.at(-1)?.note.position.num ?? 0) / (written.at(-1)?.note.position.den ?? 1) / beatsInBar,
  );
  const bars = lastBar + 1;
  return {
    metre: pulse.metre,
    feel,
    tempoBpm: pulse.tempoBpm,
    bars,
    voices,
    notes: written.map(({ note }) => note),
    hitOf: written.map(({ hitIndex }) => hitIndex),
    barTimes: barTimes(count, origin, bars, beatsInBar),
    unsure: unsurePlaces(written, beatsInBar).filter(isUnsure),
  };
}

function noteOf(
  main: { readonly hit: Hit; readonly ornament?: Note["ornament"] },
  { dynamic }: Touch,
  position: Fraction,
): Note {
  const ornament = main.ornament ? { ornament: main.ornament } : {};
  return { position, voice: main.hit.voice, dynamic, ...ornament };
}

/** The bar of the first stroke as it is written: an early stroke belongs to the beat it was meant for. */
function firstBarOf(
  beats: readonly {
    readonly beat: number;
    readonly divisions: readonly [
      { readonly parts: number; readonly places: readonly number[] },
      ...unknown[],
    ];
  }[],
  beatsInBar: number,
): number {
  const [first] = beats;
  if (!first) return 0;
  const [{ parts, places }] = first.divisions;
  return Math.floor((first.beat + Math.min(...places) / parts) / beatsInBar);
}

/** Cymbals above, feet below, as a staff has them. */
const TOP_TO_BOTTOM: readonly Voice[] = [
  "crash-left",
  "crash-right",
  "splash",
  "china",
  "ride",
  "bell",
  "cowbell",
  "hi-hat-open",
  "hi-hat-closed",
  "high-tom",
  "mid-tom",
  "cross-stick",
  "snare",
  "floor-tom",
];
const AT_THE_BOTTOM: readonly Voice[] = ["kick", "hi-hat-pedal"];

function voicesIn(voices: readonly Voice[]): readonly Voice[] {
  const used = new Set(voices);
  const between = VOICES.filter((voice) => !TOP_TO_BOTTOM.includes(voice) && !AT_THE_BOTTOM.includes(voice));
  return [...TOP_TO_BOTTOM, ...between, ...AT_THE_BOTTOM].filter((voice) => used.has(voice));
}

/** In order; two strokes of a voice on one place are a flam, too open to be told by its gap: the stronger is its main one. */
function withoutTwins(readings: readonly Reading[], voices: readonly Voice[]): readonly Reading[] {
  const byPlace = new Map<string, Reading>();
  for (const reading of readings) {
    const { position, voice } = reading.note;
    const key = `${position.num}/${position.den} ${voice}`;
    const other = byPlace.get(key);
    byPlace.set(key, other ? asFlam(other, reading) : reading);
  }
  const byNote = new Map([...byPlace.values()].map((reading) => [reading.note, reading]));
  return inOrder([...byNote.keys()], voices).flatMap((note) => byNote.get(note) ?? []);
}

function asFlam(one: Reading, other: Reading): Reading {
  const main = STRENGTH[other.note.dynamic] > STRENGTH[one.note.dynamic] ? other : one;
  return { ...main, note: { ...main.note, ornament: main.note.ornament ?? "flam" } };
}

const STRENGTH: Readonly<Record<Dynamic, number>> = { ghost: 0, plain: 1, accent: 2 };

function barTimes(count: BeatCount, origin: number, bars: number, beatsInBar: number): readonly Seconds[] {
  return Array.from({ length: bars + 1 }, (_, bar) => count.timeOf(origin + bar * beatsInBar));
}

/** How far below and above the tempo heard a groove is at home, as a ratio. Our choice. */
const TEMPO_WIDTH = 1.2;

/**
 * What was written down as a groove that repeats, to be kept and to be recognised.
 */
export function asGroove(
  { metre, feel, tempoBpm, bars, voices, notes }: Omit<Quantised, "hitOf" | "barTimes" | "unsure">,
  { id, name }: { readonly id: string; readonly name: string },
): Groove {
  const low = Math.min(399, Math.max(20, Math.round(tempoBpm / TEMPO_WIDTH)));
  const high = Math.min(400, Math.max(low + 1, Math.round(tempoBpm * TEMPO_WIDTH)));
  return { id, name, metre, feel, tempoBpm: { low, high }, bars, voices, notes };
}
