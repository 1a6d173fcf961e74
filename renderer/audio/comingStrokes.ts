/**
 * Sounds strokes that become known one after another, each some time before it is due, as those of a far kit do: they are handed
 * to the audio clock ahead of time, so that a busy or hidden page smears none.
 */
import type { Seconds } from "../../engine/units/index.ts";
import { AHEAD_UNSTEADY_SECONDS, type JoinedClock } from "./clock.ts";
import type { Sampler } from "./sampler.ts";
import { AHEAD_SECONDS, type PlannedStroke } from "./strokePlayer.ts";

/**
 * A stroke that is this late is better left out than sounded at the wrong place. Our choice: within one room a far stroke comes up
 * to 25 ms after its moment, and is packed and unpacked for 40.
 */
const TOO_LATE_SECONDS: Seconds = 0.1;

/** What there is once sound is open. */
export interface OpenSound {
  readonly sampler: Pick<Sampler, "strike" | "silence">;
  readonly clock: Pick<JoinedClock, "look" | "audioTimeAt" | "isSteady">;
  readonly context: Pick<AudioContext, "currentTime">;
  /** Calls back now and then until it is stopped. */
  readonly wake: (look: () => void) => () => void;
}

export class ComingStrokes {
  readonly #now: () => Seconds;
  #waiting: readonly PlannedStroke[] = [];
  #sound: OpenSound | undefined;
  #sleep: (() => void) | undefined;
  #isStopped = false;

  /** @param now the session clock. */
  constructor(now: () => Seconds = () => performance.now() / 1000) {
    this.#now = now;
  }

  /** Strokes in any order; their `time` is on the session clock. */
  add(strokes: readonly PlannedStroke[]): void {
    if (this.#isStopped) return;
    this.#waiting = [...this.#waiting, ...strokes].sort((a, b) => a.time - b.time);
    this.#look();
  }

  /** Sound is open: what has been added is sounded from now on. */
  open(sound: OpenSound): void {
    if (this.#isStopped) return;
    this.#sound = sound;
    this.#sleep = sound.wake(() => this.#look());
    this.#look();
  }

  /** Nothing of what is still to come sounds, and nothing more is taken. */
  stop(): void {
    this.#isStopped = true;
    this.#waiting = [];
    this.#sleep?.();
    this.#sound?.sampler.silence(this.#sound.context.currentTime);
  }

  #look(): void {
    const sound = this.#sound;
    if (!sound) return;
    const { clock, sampler, context } = sound;
    clock.look();
    const until = this.#now() + (clock.isSteady ? AHEAD_SECONDS : AHEAD_UNSTEADY_SECONDS);
    const due = this.#waiting.filter(({ time }) => time < until);
    this.#waiting = this.#waiting.slice(due.length);
    for (const stroke of due) {
      const at = clock.audioTimeAt(stroke.time);
      if (at > context.currentTime - TOO_LATE_SECONDS) sampler.strike(stroke, at);
    }
  }
}
