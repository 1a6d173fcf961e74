/**
 * From a stroke to what its recording is played with: which one, how fast, how loud, how bright, how far to a
 * side. Arithmetic only.
 */
import type { Voice, Zone } from "../../engine/kit/index.ts";
import type { Chance, NoteNumber, Velocity } from "../../engine/units/index.ts";
import type { KitSound } from "./kitManifest.ts";
import { KIT_VOICES } from "./kitVoices.ts";

/** A stroke, without its moment. */
export interface Struck {
  readonly voice: Voice;
  readonly zone?: Zone;
  readonly velocity: Velocity;
  /** A recording other than the voice's own, by its percussion key: the six tuned toms are 41, 43, 45, 47, 48, 50. */
  readonly key?: NoteNumber;
  /** Played higher (or lower) than the recording is tuned: the studio's own toms. */
  readonly semitones?: number;
}

export interface StrokeSound {
  readonly key: NoteNumber;
  readonly rate: number;
  /** Factor, 1 for the hardest stroke on the loudest drum. */
  readonly gain: number;
  /** Brightness above this is taken away, at 12 dB an octave. */
  readonly cutoffHz: number;
  readonly pan: number;
}

/** The little by which no stroke is like the one before. */
export interface Variation {
  readonly decibels: number;
  readonly cents: number;
}

export const NO_VARIATION: Variation = { decibels: 0, cents: 0 };
/** Repeated strokes differ by up to this much either way: enough to sound played, below what is heard as a fault. Our choice. */
export const MOST_VARIATION: Variation = { decibels: 1, cents: 15 };

/** Where the softening filter stands for the hardest stroke: above what most people hear. */
const OPEN_HZ = 18_000;
/**
 * From velocity to gain: velocity to this power. 1 leaves ghosts too near to accents; 2, the General MIDI 2 curve,
 * loses them on small loudspeakers. Our choice: a ghost of 0.25 lies 18 dB below the hardest stroke.
 */
const TOUCH_POWER = 1.5;

/** A variation, even within ±{@link MOST_VARIATION}. */
export function variation(chance: Chance): Variation {
  return {
    decibels: (2 * chance() - 1) * MOST_VARIATION.decibels,
    cents: (2 * chance() - 1) * MOST_VARIATION.cents,
  };
}

/** The key of the recording that a stroke is played from. */
export function recordingKey({ voice, zone = "whole", key }: Omit<Struck, "velocity">): NoteNumber {
  const sound = KIT_VOICES[voice];
  return key ?? sound.zones?.[zone]?.key ?? sound.key;
}

/**
 * What to play a stroke's recording with.
 *
 * @param recording of {@link recordingKey}.
 */
export function strokeSound(
  { voice, velocity, semitones: higher = 0 }: Struck,
  recording: Pick<KitSound, "key" | "rate" | "levelDb">,
  { decibels, cents }: Variation,
): StrokeSound {
  const { semitones = 0, pan, dullsOctaves } = KIT_VOICES[voice];
  const touch = Math.min(1, Math.max(0, velocity));
  return {
    key: recording.key,
    rate: recording.rate * 2 ** ((semitones + higher + cents / 100) / 12),
    gain: touch ** TOUCH_POWER * 10 ** ((recording.levelDb + decibels) / 20),
    cutoffHz: OPEN_HZ * 2 ** (-dullsOctaves * (1 - touch)),
    pan,
  };
}

const HI_HATS: ReadonlySet<Voice> = new Set<Voice>(["hi-hat-closed", "hi-hat-open", "hi-hat-pedal"]);

/** Whether a stroke on `next` ends the sound of `ringing`: the two cymbals of a hi-hat are one pair. */
export function stops(next: Voice, ringing: Voice): boolean {
  return HI_HATS.has(next) && HI_HATS.has(ringing);
}
