/**
 * Players that are not there: one who trades with a single player at a kit, and two who show a newcomer how it goes. Each has
 * a character: one comes early and plays much, one leaves room. All they play is of our own making.
 */
import type { Voice } from "../kit/index.ts";
import { beatsPerBar, DYNAMIC_VELOCITY, type Dynamic, isCompound } from "../score/index.ts";
import { beatSeconds, type Chance, type Milliseconds, normal, type Seconds } from "../units/index.ts";
import type { Aim } from "./aim.ts";
import type { Turn } from "./form.ts";
import { pulsesPerBeat } from "./onPulses.ts";
import { type PhraseHit, phraseStrokes } from "./phraseStrokes.ts";
import { barAt, type Pulse } from "./turnClock.ts";

export const CHARACTERS = ["early", "sparse"] as const;
export type Character = (typeof CHARACTERS)[number];

interface Manner {
  readonly leanMs: Milliseconds;
  readonly spreadMs: Milliseconds;
  /** Bars in sixteenths of four beats: hands, then kick. */
  readonly bars: readonly (readonly [string, string])[];
  /** The last bar of a turn. */
  readonly last: readonly [string, string];
}

/** s snare, S the same accented, g ghosted; h, m, f the toms; o an open hi-hat; k kick. */
const MANNERS: Readonly<Record<Character, Manner>> = {
  early: {
    leanMs: -17,
    spreadMs: 6,
    bars: [
      ["S.gsg.s.S.s.hhm.", "k.......k......."],
      ["S..sS.s.h.h.m.f.", "k.....k........."],
      ["s.ssS.g.s.ssh.m.", "........k......."],
    ],
    last: ["S.ssh.hhm.m.f.f.", "k..............."],
  },
  sparse: {
    leanMs: 8,
    spreadMs: 5,
    bars: [
      ["S.......s.......", "..............k."],
      ["....S.........f.", "k..............."],
      ["S..s............", "............k..."],
    ],
    last: ["S...m...f.......", "................"],
  },
};

const SOUNDS: Readonly<Record<string, readonly [Voice, Dynamic]>> = {
  s: ["snare", "plain"],
  S: ["snare", "accent"],
  g: ["snare", "ghost"],
  h: ["high-tom", "plain"],
  m: ["mid-tom", "plain"],
  f: ["floor-tom", "plain"],
  o: ["hi-hat-open", "plain"],
  k: ["kick", "plain"],
};

/** Where a sound goes that is moved. */
const MOVED_TO: Partial<Readonly<Record<Voice, Voice>>> = {
  snare: "high-tom",
  "high-tom": "mid-tom",
  "mid-tom": "floor-tom",
  "floor-tom": "snare",
};

export interface Asked {
  readonly character: Character;
  readonly turn: Turn;
  readonly pulse: Pulse;
  /** What was called, and its turn; `null` for a call. */
  readonly called: { readonly phrase: readonly PhraseHit[]; readonly turn: Turn } | null;
  readonly aim: Aim;
  readonly chance: Chance;
}

/** What the player plays in a turn that has a length, in order of time, on the clock of the pulse. */
export function playedBy({ character, turn, pulse, called, aim, chance }: Asked): readonly PhraseHit[] {
  const { leanMs, spreadMs } = MANNERS[character];
  const own = (): readonly PhraseHit[] => ownPhrase(character, turn, pulse, chance);
  const strokes =
    aim === "finish"
      ? called === null
        ? leftOpen(own(), turn, pulse)
        : [...own(), ...landing(turn, pulse)]
      : called === null || aim === "answer"
        ? own()
        : givenBack(called, { turn, pulse, moved: aim === "move-one", chance });
  return strokes
    .map((stroke) => ({
      ...stroke,
      time: stroke.time + (leanMs + spreadMs * normal(chance)) / 1000,
      velocity: Math.min(1, Math.max(0.05, stroke.velocity * Math.exp(0.05 * normal(chance)))),
    }))
    .sort((a, b) => a.time - b.time);
}

/** Bars of the player's own, the last one to close the turn. */
function ownPhrase(character: Character, turn: Turn, pulse: Pulse, chance: Chance): readonly PhraseHit[] {
  const { bars, last } = MANNERS[character];
  const count = turn.bars ?? 1;
  // In a compound metre a felt beat has six, where eighths are felt two.
  const inBeat = isCompound(pulse.metre) ? 6 : 16 / pulse.metre.denominator;
  const sixteenth = beatSeconds(pulse.tempoBpm) / inBeat;
  const inBar = beatsPerBar(pulse.metre) * inBeat;
  return Array.from({ length: count }, (_, bar) => {
    const lines = bar === count - 1 && count > 1 ? last : (bars[Math.floor(chance() * bars.length)] ?? last);
    const from = barAt(pulse, turn.fromBar + bar);
    return lines.flatMap((line) =>
      [...line].slice(0, inBar).flatMap((mark, at) => {
        const sound = SOUNDS[mark];
        return sound
          ? [{ time: from + at * sixteenth, voice: sound[0], velocity: DYNAMIC_VELOCITY[sound[1]] }]
          : [];
      }),
    );
  }).flat();
}

/** Without its last half bar, for the other to finish. */
function leftOpen(phrase: readonly PhraseHit[], turn: Turn, pulse: Pulse): readonly PhraseHit[] {
  const half = (beatsPerBar(pulse.metre) / 2) * beatSeconds(pulse.tempoBpm);
  const stops = barAt(pulse, turn.fromBar + (turn.bars ?? 1)) - half;
  return phrase.filter(({ time }) => time < stops - 1e-6);
}

/** The one after the turn. */
function landing(turn: Turn, pulse: Pulse): readonly PhraseHit[] {
  const time = barAt(pulse, turn.fromBar + (turn.bars ?? 1));
  return (["crash-right", "kick"] as const).map((voice) => ({
    time,
    voice,
    velocity: DYNAMIC_VELOCITY.accent,
  }));
}

/** The call on its own pulses, in the answer's turn; one of its sounds moved, where that is asked. */
function givenBack(
  { phrase, turn: callTurn }: NonNullable<Asked["called"]>,
  how: { readonly turn: Turn; readonly pulse: Pulse; readonly moved: boolean; readonly chance: Chance },
): readonly PhraseHit[] {
  const { pulse, turn, moved, chance } = how;
  const strokes = phraseStrokes(phrase);
  if (strokes.length === 0) return [];
  const from = barAt(pulse, callTurn.fromBar);
  const perBeat = pulsesPerBeat(
    strokes.map(({ time }) => time),
    from,
    pulse.tempoBpm,
  );
  const pulseSeconds = beatSeconds(pulse.tempoBpm) / perBeat;
  const later: Seconds = barAt(pulse, turn.fromBar) - from;
  const movable = strokes.filter(({ voice }) => MOVED_TO[voice] !== undefined);
  const chosen = moved ? movable[Math.floor(chance() * movable.length)] : undefined;
  return strokes.map((stroke) => ({
    time: from + Math.round((stroke.time - from) / pulseSeconds) * pulseSeconds + later,
    voice: stroke === chosen ? (MOVED_TO[stroke.voice] ?? stroke.voice) : stroke.voice,
    velocity: stroke.velocity,
  }));
}

/** A bar of the soft time-keeper that stands in for a click: hi-hat, the foot on every other beat. */
export function timeKeeperBar(pulse: Pulse): readonly PhraseHit[] {
  const beat = beatSeconds(pulse.tempoBpm);
  const between = isCompound(pulse.metre) ? [1 / 3, 2 / 3] : pulse.metre.denominator > 4 ? [] : [1 / 2];
  return Array.from({ length: beatsPerBar(pulse.metre) }, (_, at): readonly PhraseHit[] => [
    { time: at * beat, voice: "hi-hat-closed", velocity: at === 0 ? 0.34 : 0.26 },
    ...between.map((share) => ({
      time: (at + share) * beat,
      voice: "hi-hat-closed" as const,
      velocity: 0.16,
    })),
    ...(at % 2 === 1 ? [{ time: at * beat, voice: "hi-hat-pedal" as const, velocity: 0.3 }] : []),
  ]).flat();
}
