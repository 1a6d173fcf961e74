/**
 * Question: how far from the written clock is the player by now?
 *
 * A take that drifts by 1 in 50 is 600 ms away after half a minute, further than any stroke may be from its
 * note; so strokes are looked for where the player's own clock expects them. The clock is followed by a
 * fading-memory filter of the first degree (gains 1 − θ² and (1 − θ)²; Morrison, *Introduction to Sequential
 * Smoothing and Prediction*, 1969), which follows a steady drift without lagging behind it.
 */
import type { Seconds } from "../units/index.ts";

/** Memory of the follower: about a bar. Shorter follows single strokes, longer loses a player who rushes. Our choice. */
const MEMORY_SECONDS = 2;
/** One stroke moves the clock as if it were at most this far off: more is a slip, not the player's clock. Our choice. */
const LARGEST_STEP_SECONDS = 0.06;
/** A drift beyond 7 in 100 is another tempo, not drift. Our choice: pupils rush by 5 in 100 over a long take. */
const LARGEST_RATE = 0.07;

/** The player's clock against the target's: offsets in seconds, positive when the player is late. */
export class TakeClock {
  #offset: Seconds = 0;
  #rate = 0;
  #at: Seconds | undefined;

  /** Sets the clock: how late the player is at a moment, and how much later with every second. */
  set(at: Seconds, offset: Seconds, rate: number): void {
    this.#at = at;
    this.#offset = offset;
    this.#rate = clamp(rate, LARGEST_RATE);
  }

  /** How late the player is expected to be at a moment. After a pause the last known drift is not spun on. */
  expectedOffset(time: Seconds): Seconds {
    if (this.#at === undefined) return 0;
    return this.#offset + this.#rate * Math.min(Math.max(time - this.#at, 0), MEMORY_SECONDS);
  }

  /** Learns from a stroke that answered its note `offset` seconds late. */
  learn(time: Seconds, offset: Seconds): void {
    const expected = this.expectedOffset(time);
    const elapsed = this.#at === undefined ? MEMORY_SECONDS / 2 : Math.min(time - this.#at, MEMORY_SECONDS);
    if (elapsed <= 0) return;
    const error = clamp(offset - expected, LARGEST_STEP_SECONDS);
    const fading = Math.exp(-elapsed / MEMORY_SECONDS);
    this.#offset = expected + (1 - fading ** 2) * error;
    this.#rate = clamp(this.#rate + ((1 - fading) ** 2 * error) / elapsed, LARGEST_RATE);
    this.#at = time;
  }
}

function clamp(value: number, limit: number): number {
  return Math.min(Math.max(value, -limit), limit);
}
