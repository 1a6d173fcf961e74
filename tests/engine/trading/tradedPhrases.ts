/**
 * Calls drawn by chance, and answers to them with changes that are known. Phrases of one or two bars in quarters, eighths,
 * triplets and sixteenths, with chords, accents, ghost notes and flams.
 */
import type { Voice } from "../../../engine/kit/index.ts";
import type { PhraseHit } from "../../../engine/trading/index.ts";
import { type Chance, normal } from "../../../engine/units/index.ts";

export const CHANGES = [
  "none",
  "voice",
  "eighth",
  "sixteenth",
  "left out",
  "first left out",
  "added",
  "doubled",
  "two voices",
] as const;
export type Change = (typeof CHANGES)[number];

export interface TradedPhrase {
  readonly call: readonly PhraseHit[];
  readonly tempoBpm: number;
  /** Main strokes: where in the call, and on which pulse. */
  readonly mains: readonly { readonly index: number; readonly beat: number; readonly voice: Voice }[];
}

export interface KnownAnswer {
  readonly change: Change;
  readonly answer: readonly PhraseHit[];
  readonly truth: {
    readonly rhythm: boolean;
    readonly sound: boolean;
    /** Places in the call of sounds that moved. */
    readonly moved: readonly number[];
    readonly missed: readonly number[];
    readonly added: number;
  };
}

const HAND_VOICES: readonly Voice[] = [
  "snare",
  "snare",
  "snare",
  "high-tom",
  "mid-tom",
  "floor-tom",
  "hi-hat-closed",
];
const OTHER_VOICES: readonly Voice[] = [
  "snare",
  "high-tom",
  "mid-tom",
  "floor-tom",
  "hi-hat-closed",
  "kick",
  "ride",
];

function pick<T>(from: readonly T[], chance: Chance): T {
  const value = from[Math.floor(chance() * from.length)];
  if (value === undefined) throw new Error("There is nothing to pick from.");
  return value;
}

interface Stroke {
  readonly beat: number;
  readonly voice: Voice;
  readonly velocity: number;
  readonly flam: boolean;
}

/** A call of its own making, played with `spreadMs` of scatter. */
export function drawCall(
  chance: Chance,
  spreadMs: number,
): { readonly phrase: TradedPhrase; readonly strokes: readonly Stroke[] } {
  const tempoBpm = 70 + Math.floor(chance() * 90);
  const bars = chance() < 0.5 ? 1 : 2;
  const perBeat = pick([2, 2, 3, 4], chance);
  let strokes: Stroke[] = [];
  while (new Set(strokes.map(({ beat }) => beat)).size < 4) {
    strokes = [];
    for (let pulse = 0; pulse < bars * 4 * perBeat; pulse += 1) {
      const onBeat = pulse % perBeat === 0;
      if (chance() > (onBeat ? 0.75 : 0.45)) continue;
      const velocity = pick([0.62, 0.62, 0.62, 0.95, 0.28], chance);
      const beat = pulse / perBeat;
      strokes.push({
        beat,
        voice: pick(HAND_VOICES, chance),
        velocity,
        flam: velocity > 0.5 && chance() < 0.06,
      });
      if (chance() < 0.2) strokes.push({ beat, voice: "kick", velocity: 0.7, flam: false });
    }
  }
  const { hits, mains } = played(strokes, { tempoBpm, start: 0.5, spreadMs, chance });
  return {
    strokes,
    phrase: {
      call: hits,
      tempoBpm,
      mains: strokes.map(({ beat, voice }, at) => ({ index: mains[at] ?? -1, beat, voice })),
    },
  };
}

function played(
  strokes: readonly Stroke[],
  how: {
    readonly tempoBpm: number;
    readonly start: number;
    readonly spreadMs: number;
    readonly chance: Chance;
  },
): { readonly hits: readonly PhraseHit[]; readonly mains: readonly number[] } {
  const sounding = strokes.flatMap((stroke, of) => {
    const time = how.start + (stroke.beat * 60) / how.tempoBpm + (normal(how.chance) * how.spreadMs) / 1000;
    const velocity = Math.min(1, Math.max(0.05, stroke.velocity * Math.exp(0.08 * normal(how.chance))));
    const main = { of: of as number | undefined, hit: { time, voice: stroke.voice, velocity } };
    if (!stroke.flam) return [main];
    const grace = { time: time - 0.02 - 0.02 * how.chance(), voice: stroke.voice, velocity: 0.4 * velocity };
    return [{ of: undefined, hit: grace }, main];
  });
  sounding.sort((a, b) => a.hit.time - b.hit.time);
  return {
    hits: sounding.map(({ hit }) => hit),
    mains: strokes.map((_, of) => sounding.findIndex((each) => each.of === of)),
  };
}

/** An answer with one known change. `undefined` where the phrase has no place for it. */
export function drawAnswer(
  { strokes, phrase }: ReturnType<typeof drawCall>,
  change: Change,
  how: {
    readonly chance: Chance;
    readonly stretch: number;
    readonly spreadMs: number;
    readonly start: number;
  },
): KnownAnswer | undefined {
  const { chance } = how;
  const changed = changedStrokes(strokes, change, chance);
  if (!changed) return undefined;
  const { hits } = played(changed.strokes, {
    tempoBpm: phrase.tempoBpm / how.stretch,
    start: how.start,
    spreadMs: how.spreadMs,
    chance,
  });
  const indexOf = (at: number): number => phrase.mains[at]?.index ?? -1;
  return {
    change,
    answer: hits,
    truth: {
      rhythm: changed.rhythm,
      sound: changed.moved.length === 0,
      moved: changed.moved.map(indexOf).sort((a, b) => a - b),
      missed: changed.missed.map(indexOf),
      added: changed.added,
    },
  };
}

function changedStrokes(strokes: readonly Stroke[], change: Change, chance: Chance) {
  const same = { strokes, rhythm: true, moved: [] as number[], missed: [] as number[], added: 0 };
  const any = Math.floor(chance() * strokes.length);
  const free = (beat: number, but?: number): boolean =>
    strokes.every((stroke, at) => at === but || Math.abs(stroke.beat - beat) > 0.2);
  switch (change) {
    case "none":
      return same;
    case "voice":
    case "two voices": {
      const places =
        change === "voice"
          ? [any]
          : [any, (any + 1 + Math.floor(chance() * (strokes.length - 1))) % strokes.length];
      const moved = strokes.map((stroke, at) => {
        if (!places.includes(at)) return stroke;
        const beside = strokes.filter(({ beat }) => beat === stroke.beat).map(({ voice }) => voice);
        return {
          ...stroke,
          voice: pick(
            OTHER_VOICES.filter((voice) => !beside.includes(voice)),
            chance,
          ),
        };
      });
      // Two sounds of one moment may change into one another, which is no change.
      const sounding = moved.map(({ beat, voice }) => `${beat} ${voice}`);
      if (new Set(sounding).size < sounding.length) return undefined;
      return { ...same, strokes: moved, moved: places };
    }
    case "eighth":
    case "sixteenth": {
      const by = (change === "eighth" ? 0.5 : 0.25) * (chance() < 0.5 ? -1 : 1);
      const beat = (strokes[any]?.beat ?? 0) + by;
      if (!free(beat, any) || beat < 0) return undefined;
      const moved = strokes.map((stroke, at) => (at === any ? { ...stroke, beat } : stroke));
      return { ...same, strokes: moved, rhythm: false };
    }
    case "left out":
    case "first left out": {
      const out = change === "left out" ? any : 0;
      return { ...same, strokes: strokes.filter((_, at) => at !== out), rhythm: false, missed: [out] };
    }
    case "added": {
      const beat = Math.floor(chance() * 16) / 4;
      if (!free(beat)) return undefined;
      const stroke = { beat, voice: pick(OTHER_VOICES, chance), velocity: 0.62, flam: false };
      return { ...same, strokes: [...strokes, stroke], rhythm: false, added: 1 };
    }
    case "doubled": {
      const stroke = strokes[any];
      if (!stroke || !free(stroke.beat + 0.125, any)) return undefined;
      const again = { ...stroke, beat: stroke.beat + 0.125, flam: false };
      return { ...same, strokes: [...strokes, again], rhythm: false, added: 1 };
    }
  }
}
