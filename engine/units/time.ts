/**
 * Names for the quantities that cross a boundary. They are aliases of `number`, so every variable that holds
 * one also carries its unit in its own name: `timeSeconds`, `offsetMs`, `tempoBpm`.
 */

/** Seconds on the session clock. */
export type Seconds = number;
/** Milliseconds. A signed offset in milliseconds is negative when early ("ahead"), positive when late ("behind"). */
export type Milliseconds = number;
/** Beats a minute. */
export type Bpm = number;
/** Strength of a stroke, 0 (silent) to 1 (the hardest the kit reports). */
export type Velocity = number;
/** MIDI key number, 0 to 127. */
export type NoteNumber = number;

/**
 * Seconds from one beat to the next.
 *
 * @example
 * beatSeconds(120) // => 0.5
 */
export function beatSeconds(tempoBpm: Bpm): Seconds {
  return 60 / tempoBpm;
}

export function toMs(seconds: Seconds): Milliseconds {
  return seconds * 1000;
}
