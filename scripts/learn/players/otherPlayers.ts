/**
 * Stand-ins for other players: what somebody else makes of a groove a human take plays.
 * Each player has habits that stay (lean of each limb, ghost notes, strokes left out or put in, cymbal, fills) and
 * chance that does not. How far each strays is what was measured on the human takes (`humanNoise.ts`), but for what one
 * take by one player cannot tell: how much players differ in their habits is our choice, and said beside each constant.
 * The same chance gives the same players and the same performances.
 */
import type { Voice } from "../../../engine/kit/index.ts";
import { type Chance, type Milliseconds, normal } from "../../../engine/units/index.ts";
import type { DerivedGroove, GrooveStroke, Part } from "./derivedGroove.ts";
import { type Fill, tomsDown } from "./fills.ts";
import { MEASURED } from "./humanNoise.ts";

export interface Player {
  readonly leanMs: Readonly<Record<Part, Milliseconds>>;
  readonly spreadMs: Milliseconds;
  /** Chance in a repeat that each stroke of the groove sounds, in the groove's order. */
  readonly sounds: readonly number[];
  readonly own: readonly OwnStroke[];
  /** Which voice stands for the time-keeper's. */
  readonly timeKeeper: (voice: Voice, chance: Chance) => Voice;
  readonly fills: FillHabit | undefined;
  /** Ratio of the player's dynamics to the take's. */
  readonly strength: number;
  /** By how much strokes off the beat are later (or earlier) than written, in beats, where the groove is not straight. */
  readonly swingBeats: number;
}

interface OwnStroke {
  readonly voice: Voice;
  readonly step: number;
  readonly chance: number;
  readonly velocity: number;
}

export interface FillHabit {
  readonly everyBars: 4 | 8;
  readonly beats: number;
  readonly fills: readonly Fill[];
  /** Chance of a crash on the downbeat after a fill. */
  readonly crashAfter: number;
}

/** Habits move the log-odds of a stroke by this standard deviation; one that may be played varies most. Our choice. */
const HABIT_OF_USUAL = 0.9;
const HABIT_OF_OPTIONAL = 2;
const USUAL_FROM = 0.5;
/**
 * A take's share also counts its fills, its sections and its first and last bars: within the groove a usual stroke
 * sounds more often. Our choice.
 */
const WITHIN_GROOVE = 1;

/** Somebody who has learnt this groove. */
export function anotherPlayer(groove: DerivedGroove, fills: readonly Fill[], chance: Chance): Player {
  const lean = (): Milliseconds => MEASURED.partLeanMs * normal(chance);
  return {
    leanMs: {
      kick: lean(),
      "back-beat": lean(),
      "time-keeper": lean(),
      pedal: lean(),
      toms: lean(),
      crash: lean(),
    },
    spreadMs: MEASURED.spreadMs.low + (MEASURED.spreadMs.high - MEASURED.spreadMs.low) * chance(),
    sounds: groove.strokes.map((stroke) => habitualChance(stroke, chance)),
    own: [...ghostNotes(groove, chance), ...kicksOfOwn(groove, chance)],
    timeKeeper: timeKeeperOf(chance),
    fills: chance() < 0.7 ? fillHabit(fills, chance) : undefined,
    strength: 0.85 + 0.3 * chance(),
    swingBeats: 0.02 * normal(chance),
  };
}

function habitualChance({ share }: GrooveStroke, chance: Chance): number {
  const certain = Math.min(0.98, share);
  const usual = share >= USUAL_FROM;
  const odds =
    Math.log(certain / (1 - certain)) +
    (usual ? WITHIN_GROOVE + HABIT_OF_USUAL * normal(chance) : HABIT_OF_OPTIONAL * normal(chance));
  return 1 / (1 + Math.exp(-odds));
}

/** Places of a groove's bars at sixteenths where this part has no stroke. */
function emptySixteenths(groove: DerivedGroove, part: Part): readonly number[] {
  const taken = new Set(groove.strokes.filter((stroke) => stroke.part === part).map(({ step }) => step));
  const count = groove.bars * groove.beatsInBar * 4;
  return Array.from({ length: count }, (_, index) => index * 3).filter((step) => !taken.has(step));
}

/** From none to three habitual ghost notes a bar: our choice. */
function ghostNotes(groove: DerivedGroove, chance: Chance): readonly OwnStroke[] {
  const density = 3 * chance() ** 2;
  const empty = emptySixteenths(groove, "back-beat");
  const each = Math.min(0.9, (density * groove.bars) / Math.max(1, empty.length));
  return empty
    .filter(() => chance() < 1.6 * each)
    .map((step) => ({ voice: "snare", step, chance: 0.625, velocity: 0.15 + 0.12 * chance() }));
}

/** Two players of five add a kick of their own, every third repeat or so. Our choice. */
function kicksOfOwn(groove: DerivedGroove, chance: Chance): readonly OwnStroke[] {
  const empty = emptySixteenths(groove, "kick");
  const step = empty[Math.floor(chance() * empty.length)];
  if (step === undefined || chance() > 0.4) return [];
  return [{ voice: "kick", step, chance: 0.2 + 0.3 * chance(), velocity: 0.5 + 0.2 * chance() }];
}

/** A quarter move the time to the other cymbal, a few play it on half-open hi-hats. Our choice. */
function timeKeeperOf(chance: Chance): Player["timeKeeper"] {
  const draw = chance();
  if (draw < 0.25) {
    return (voice) => (voice === "ride" || voice === "bell" ? "hi-hat-closed" : "ride");
  }
  if (draw < 0.35) return (voice) => (voice === "hi-hat-closed" ? "hi-hat-open" : voice);
  const opens = 0.08 * chance();
  return (voice, now) => (voice === "hi-hat-closed" && now() < opens ? "hi-hat-open" : voice);
}

function fillHabit(fills: readonly Fill[], chance: Chance): FillHabit {
  const improvises = fills.length === 0 || chance() < 0.3;
  return {
    everyBars: chance() < 0.5 ? 4 : 8,
    beats: chance() < 0.5 ? 2 : 4,
    fills: improvises ? [tomsDown(chance), tomsDown(chance)] : [1, 2, 3].flatMap(() => oneOf(fills, chance)),
    crashAfter: chance() < 0.6 ? 0.9 : 0.1,
  };
}

function oneOf(fills: readonly Fill[], chance: Chance): readonly Fill[] {
  const fill = fills[Math.floor(chance() * fills.length)];
  return fill ? [fill] : [];
}
