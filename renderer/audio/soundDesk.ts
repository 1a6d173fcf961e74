/**
 * All sound of the program: drum sounds for the strokes that no module sounds, and the click. Both are off
 * until the user turns them on; the kit itself is never doubled.
 */
import type { Hit } from "../../engine/kit/index.ts";
import type { Seconds } from "../../engine/units/index.ts";
import { Store } from "../session/store.ts";
import { audioTimeAt } from "./clock.ts";
import { soundClick, soundStroke } from "./drumSound.ts";

export interface SoundState {
  readonly drumsOn: boolean;
  /** Why there is no sound, said to the user. */
  readonly trouble?: string;
}

/** A click that has begun: where its first beat lies, and how it goes on. */
export interface Click {
  readonly from: Seconds;
  readonly beatSeconds: Seconds;
  readonly beatsPerBar: number;
}

/** Quiet by design: −18 dB of full scale at most for a full stroke. */
const LEVEL = 0.125;
/** Clicks are scheduled this far ahead, looked at four times as often: a busy page delays none. */
const AHEAD_SECONDS: Seconds = 0.4;
const LOOK_MS = 100;

export class SoundDesk extends Store<SoundState, SoundState> {
  #audio: { readonly context: AudioContext; readonly out: GainNode } | undefined;
  #clickTimer: ReturnType<typeof setInterval> | undefined;
  #clickOut: GainNode | undefined;

  constructor() {
    super({ drumsOn: false }, (_, next) => next);
  }

  /** Call it from the user's own action: browsers start sound only then. */
  async turnDrums(on: boolean): Promise<void> {
    this.dispatch({ drumsOn: on });
    if (on) await this.#open();
  }

  /** Sounds a stroke now, where drum sounds are on. */
  sound(hit: Hit): void {
    if (!this.get().drumsOn || !this.#audio) return;
    const { context, out } = this.#audio;
    soundStroke(context, out, hit.voice, hit.velocity, context.currentTime);
  }

  /** Starts the click. Call it from the user's own action. */
  async startClick(click: Click): Promise<void> {
    this.stopClick();
    const audio = await this.#open();
    if (!audio) return;
    const clickOut = audio.context.createGain();
    clickOut.connect(audio.out);
    this.#clickOut = clickOut;
    let beat = 0;
    const look = (): void => {
      const until = performance.now() / 1000 + AHEAD_SECONDS;
      for (let time = click.from; ; beat += 1) {
        time = click.from + beat * click.beatSeconds;
        if (time > until) break;
        const at = audioTimeAt(audio.context, time);
        if (at >= audio.context.currentTime)
          soundClick(audio.context, clickOut, beat % click.beatsPerBar === 0, at);
      }
    };
    look();
    this.#clickTimer = setInterval(look, LOOK_MS);
  }

  stopClick(): void {
    clearInterval(this.#clickTimer);
    this.#clickOut?.disconnect();
    this.#clickOut = undefined;
  }

  async #open(): Promise<{ readonly context: AudioContext; readonly out: GainNode } | undefined> {
    try {
      if (!this.#audio) {
        const context = new AudioContext({ latencyHint: "interactive" });
        const out = context.createGain();
        out.gain.value = LEVEL;
        out.connect(context.destination);
        this.#audio = { context, out };
      }
      if (this.#audio.context.state !== "running") await this.#audio.context.resume();
      return this.#audio;
    } catch (error) {
      this.dispatch({
        drumsOn: false,
        trouble: `This computer gives no sound (${String(error)}). Check the sound output, then turn it on again.`,
      });
      return undefined;
    }
  }
}
