/**
 * Question: which strokes are ghost notes and which accents, for this player on this kit?
 * Method: ghost, plain and accent stand in the proportions of a plain performance; how strong all of them are is the
 * player's own: a scale for the take, and near it one for each voice. The likeliest scales are looked for, then the likeliest
 * touch of each stroke.
 */
import type { Voice } from "../../kit/index.ts";
import { DYNAMIC_VELOCITY, type Dynamic } from "../../score/index.ts";
import type { Velocity } from "../../units/index.ts";

/** A stroke's touch, with the chance of it and of the next likeliest. */
export interface Touch {
  readonly dynamic: Dynamic;
  readonly chance: number;
  readonly next: { readonly dynamic: Dynamic; readonly chance: number };
}

const TOUCHES: readonly { readonly dynamic: Dynamic; readonly share: number }[] = [
  { dynamic: "ghost", share: 0.15 },
  { dynamic: "plain", share: 0.7 },
  { dynamic: "accent", share: 0.15 },
];
/** Strength about a written dynamic: standard deviation. Our choice. */
const SPREAD = 0.08;
/** How far players and kits differ in strength, and the voices of one player: standard deviations of the log. Our choice. */
const PLAYERS_LOG_SD = 0.35;
const VOICES_LOG_SD = 0.12;
/** No further: a voice further off is struck with another touch, not by another player. Our choice. */
const VOICES_LOG_MOST = 0.2;
const SCALES = Array.from({ length: 47 }, (_, step) => 0.45 * 1.03 ** step);

/** The touch of each stroke, in their order. */
export function touchesHeard(
  strokes: readonly { readonly voice: Voice; readonly velocity: Velocity }[],
): readonly Touch[] {
  const all = strokes.map(({ velocity }) => velocity);
  const player = likeliestScale(all, { around: 1, logSd: PLAYERS_LOG_SD, most: 1 }, mostlyPlain);
  const byVoice = new Map<Voice, Velocity[]>();
  for (const { voice, velocity } of strokes) {
    const own = byVoice.get(voice);
    if (own) own.push(velocity);
    else byVoice.set(voice, [velocity]);
  }
  const scales = new Map<Voice, number>();
  for (const [voice, own] of byVoice)
    scales.set(
      voice,
      likeliestScale(own, { around: player, logSd: VOICES_LOG_SD, most: VOICES_LOG_MOST }, asItMayBe),
    );
  return strokes.map(({ voice, velocity }) => touchOf(velocity, scales.get(voice) ?? player));
}

/** How likely a stroke is of a player, most of whose strokes are plain. */
function mostlyPlain(velocity: Velocity, scale: number): number {
  return TOUCHES.reduce((sum, { dynamic, share }) => sum + share * density(velocity, dynamic, scale), 0);
}

/** How likely it is of a voice that may be nothing but accents. */
function asItMayBe(velocity: Velocity, scale: number): number {
  return Math.max(...TOUCHES.map(({ dynamic }) => density(velocity, dynamic, scale)));
}

/** No stroke speaks against a scale more than this: a slip of the hand. */
const SLIP = 1e-3;

function likeliestScale(
  velocities: readonly Velocity[],
  {
    around,
    logSd,
    most: mostLog,
  }: { readonly around: number; readonly logSd: number; readonly most: number },
  likelihood: (velocity: Velocity, scale: number) => number,
): number {
  // Kits say 127 strengths: each is asked once, however often it was struck.
  const counts = new Map<Velocity, number>();
  for (const velocity of velocities) counts.set(velocity, (counts.get(velocity) ?? 0) + 1);
  let best = around;
  let most = Number.NEGATIVE_INFINITY;
  for (const scale of [around, ...SCALES]) {
    const off = Math.log(scale / around);
    if (Math.abs(off) > mostLog) continue;
    let log = -((off / logSd) ** 2) / 2;
    for (const [velocity, count] of counts) log += count * Math.log(likelihood(velocity, scale) + SLIP);
    if (log > most) {
      most = log;
      best = scale;
    }
  }
  return best;
}

function density(velocity: Velocity, dynamic: Dynamic, scale: number): number {
  // No kit says more than 1.
  const meant = Math.min(1, DYNAMIC_VELOCITY[dynamic] * scale);
  return Math.exp(-(((velocity - meant) / SPREAD) ** 2) / 2);
}

function touchOf(velocity: Velocity, scale: number): Touch {
  // Beyond the middle of ghost or accent a stroke is only more of it.
  const within = Math.min(
    Math.max(velocity, DYNAMIC_VELOCITY.ghost * scale),
    DYNAMIC_VELOCITY.accent * scale,
  );
  const weights = TOUCHES.map(({ dynamic, share }) => ({
    dynamic,
    chance: share * density(within, dynamic, scale) + 1e-12,
  }));
  const sum = weights.reduce((all, { chance }) => all + chance, 0);
  const [best, next] = weights
    .map(({ dynamic, chance }) => ({ dynamic, chance: chance / sum }))
    .sort((a, b) => b.chance - a.chance);
  const plain = { dynamic: "plain" as const, chance: 1 };
  return { ...(best ?? plain), next: next ?? { ...plain, chance: 0 } };
}
