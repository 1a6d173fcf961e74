/**
 * Question: what does a player play of a groove this time?
 * Method: the groove's strokes each with the player's own chance, what the player adds, fills; then time: the limbs'
 * leans, a wander they share and a spread of each stroke's own. Cut out anywhere in the bar, at any tempo.
 */
import type { Hit, Voice } from "../../../engine/kit/index.ts";
import { type Chance, type Milliseconds, normal } from "../../../engine/units/index.ts";
import { type DerivedGroove, partOf, STEPS_PER_BEAT } from "./derivedGroove.ts";
import { MEASURED } from "./humanNoise.ts";
import type { FillHabit, Player } from "./otherPlayers.ts";

export interface Performance {
  readonly bars: number;
  /** Seconds are multiplied by this. */
  readonly slower: number;
  readonly leftOut?: number;
  readonly added?: number;
  /** Spread put on top of the player's own. */
  readonly jitterMs?: Milliseconds;
}

export interface Performed {
  readonly hits: readonly Hit[];
  readonly tempoBpm: number;
  /** The downbeats that sounded, on the clock of the hits. */
  readonly downbeats: readonly number[];
}

/** One performance, cut out anywhere in the bar. */
export function perform(groove: DerivedGroove, player: Player, how: Performance, chance: Chance): Performed {
  const { beatsInBar } = groove;
  const begins = chance() * groove.bars * beatsInBar;
  const ends = begins + how.bars * beatsInBar;
  const secondsABeat = (60 / groove.tempoBpm) * how.slower;
  const fillPhase = Math.floor(chance() * 8);
  const intended = intendedStrokes(groove, player, Math.ceil(ends / beatsInBar) + 1, fillPhase, chance);
  const wander = wanderOf(player.spreadMs, Math.ceil(ends) + 2, chance);
  const limbMs = player.spreadMs * MEASURED.limbShare;
  const hits = intended
    .filter(({ beat }) => beat >= begins && beat < ends)
    .filter(() => chance() >= (how.leftOut ?? 0))
    .map(({ beat, voice, velocity }): Hit => {
      const lateMs =
        player.leanMs[partOf(voice) ?? "kick"] +
        (wander[Math.floor(beat)] ?? 0) +
        Math.hypot(limbMs, how.jitterMs ?? 0) * normal(chance);
      return struck((beat - begins) * secondsABeat + lateMs / 1000, voice, human(velocity, chance));
    });
  const span = how.bars * beatsInBar * secondsABeat;
  const voices = hits.map(({ voice }) => voice);
  for (let count = Math.round(hits.length * (how.added ?? 0)); count > 0; count -= 1) {
    const voice = voices[Math.floor(chance() * voices.length)] ?? "snare";
    hits.push(struck(chance() * span, voice, human(0.6, chance)));
  }
  const downbeats: number[] = [];
  for (let bar = Math.ceil(begins / beatsInBar); bar * beatsInBar < ends; bar += 1) {
    downbeats.push((bar * beatsInBar - begins) * secondsABeat);
  }
  return { hits: hits.sort((a, b) => a.time - b.time), tempoBpm: 60 / secondsABeat, downbeats };
}

interface Intended {
  readonly beat: number;
  readonly voice: Voice;
  readonly velocity: number;
}

function intendedStrokes(
  groove: DerivedGroove,
  player: Player,
  bars: number,
  fillPhase: number,
  chance: Chance,
): readonly Intended[] {
  const { beatsInBar } = groove;
  const strokes: Intended[] = [];
  const repeatBeats = groove.bars * beatsInBar;
  for (let from = 0; from < bars * beatsInBar; from += repeatBeats) {
    groove.strokes.forEach((stroke, index) => {
      if (chance() >= (player.sounds[index] ?? 0)) return;
      const voice = stroke.part === "time-keeper" ? player.timeKeeper(stroke.voice, chance) : stroke.voice;
      const velocity = stroke.velocity * player.strength;
      strokes.push({ beat: from + swung(stroke.step, player), voice, velocity });
    });
    for (const own of player.own) {
      if (chance() < own.chance) {
        strokes.push({ beat: from + swung(own.step, player), voice: own.voice, velocity: own.velocity });
      }
    }
  }
  return player.fills ? withFills(strokes, player.fills, { bars, beatsInBar, fillPhase }, chance) : strokes;
}

/** Triplet places are where swing shows. */
function swung(step: number, player: Player): number {
  const within = step % STEPS_PER_BEAT;
  return step / STEPS_PER_BEAT + (within === 8 ? player.swingBeats : 0);
}

function withFills(
  strokes: readonly Intended[],
  habit: FillHabit,
  piece: { readonly bars: number; readonly beatsInBar: number; readonly fillPhase: number },
  chance: Chance,
): readonly Intended[] {
  let played = [...strokes];
  for (let bar = 0; bar < piece.bars; bar += 1) {
    if ((bar + piece.fillPhase) % habit.everyBars !== habit.everyBars - 1) continue;
    const to = (bar + 1) * piece.beatsInBar;
    const from = to - Math.min(habit.beats, piece.beatsInBar);
    const fill = habit.fills[Math.floor(chance() * habit.fills.length)] ?? [];
    played = played.filter(({ beat }) => beat < from - 0.1 || beat >= to - 0.1);
    for (const { beat, voice, velocity } of fill) {
      const at = to - 4 + beat;
      if (at >= from - 0.1 && at < to - 0.1) played.push({ beat: Math.max(0, at), voice, velocity });
    }
    if (chance() < habit.crashAfter) played.push({ beat: to, voice: "crash-left", velocity: 0.85 });
  }
  return played;
}

/** The wander all limbs share, beat by beat: a first-order autoregression. */
function wanderOf(spreadMs: Milliseconds, beats: number, chance: Chance): readonly Milliseconds[] {
  const sd = spreadMs * Math.sqrt(1 - MEASURED.limbShare ** 2);
  const kept = MEASURED.wanderCorrelation;
  let now = sd * normal(chance);
  return Array.from({ length: beats }, () => {
    now = kept * now + Math.sqrt(1 - kept ** 2) * sd * normal(chance);
    return now;
  });
}

function human(velocity: number, chance: Chance): number {
  return Math.min(1, Math.max(1 / 127, velocity + MEASURED.velocitySd * normal(chance)));
}

function struck(time: number, voice: Voice, velocity: number): Hit {
  return { time: Math.max(0, time), voice, velocity, zone: "whole", pad: 0 };
}
