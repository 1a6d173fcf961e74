/**
 * All sound of the program: drum sounds for the strokes that no module sounds, written strokes played from a page,
 * and the click. Quiet until the user asks for it; a kit with a module of its own is never doubled.
 */
import type { Hit, Voice } from "../../engine/kit/index.ts";
import type { PlayedClick } from "../../engine/score/index.ts";
import { type Seconds, seededChance } from "../../engine/units/index.ts";
import type { KeepingPlace } from "../session/kitMapChoice.ts";
import { Store } from "../session/store.ts";
import { ClickPlayer } from "./clickPlayer.ts";
import { clickSound } from "./clickSound.ts";
import { clickTimer } from "./clickTimer.ts";
import { AHEAD_UNSTEADY_SECONDS, clockOf } from "./clock.ts";
import { ComingStrokes } from "./comingStrokes.ts";
import { loadKit, type RecordedKit } from "./recordedKit.ts";
import { Sampler } from "./sampler.ts";
import { type HeardBy, keepSoundChoice, readSoundChoice } from "./soundChoice.ts";
import { AHEAD_SECONDS, type Planned, type Playing, StrokePlan } from "./strokePlayer.ts";
import { connectCeiling, FIRST_VOLUME, VOLUME_STEPS, volumeGain } from "./volume.ts";

export interface SoundState {
  readonly drumsOn: boolean;
  /** The kit has no module that sounds it: its strokes are sounded here. */
  readonly kitIsSilent: boolean;
  /** 0 (silent) to {@link VOLUME_STEPS}. */
  readonly volume: number;
  /** What the user listens through; `null` before it was said. */
  readonly heardBy: HeardBy | null;
  /** Headphones were chosen for the first time, and the note on hearing has not been read yet. */
  readonly isHearingNoteDue: boolean;
  /** Why there is no sound, said to the user. */
  readonly trouble?: string;
}

/** Name of the measure from a strike's own time stamp to the moment its sound is handed to the audio clock. */
export const STRIKE_SOUNDED = "strike-sounded";

/** Air before the first written stroke: enough for the two clocks to be joined, short of what feels like waiting. */
const LEAD_SECONDS: Seconds = 0.4;
/** The same where the sound device must be opened first, or has just been: a quarter of a second for that, more for the clocks. */
const LEAD_OPENING_SECONDS: Seconds = 0.9;
/** A stroke that is this late is better left out than played at the wrong place. */
const TOO_LATE_SECONDS: Seconds = 0.05;
/** The same for a strike that was made while the device was opening. Our choice: later, it is an echo. */
const TOO_LATE_TO_ANSWER_SECONDS: Seconds = 0.06;
const VARIATION_SEED = 1;

/** What is open once there is sound. */
interface Audio {
  readonly context: AudioContext;
  /** Everything goes in here: the volume, with the ceiling behind it. */
  readonly out: GainNode;
}

export class SoundDesk extends Store<SoundState, Partial<SoundState>> {
  readonly #place: KeepingPlace | undefined;
  readonly #chance = seededChance(VARIATION_SEED);
  #audio: Audio | undefined;
  #kit: Promise<RecordedKit> | undefined;
  /** Strokes as they are played. */
  #live: Sampler | undefined;
  /** Those that were played while the device was opening. */
  #waiting: readonly Hit[] = [];
  #click: ClickPlayer | undefined;
  #clicksAsked = 0;

  /** @param place where the choice of headphones is kept; without one it is asked for anew. */
  constructor(place?: KeepingPlace) {
    const kept = readSoundChoice(place);
    super(
      {
        drumsOn: false,
        kitIsSilent: kept.kitIsSilent,
        volume: FIRST_VOLUME,
        heardBy: kept.heardBy,
        isHearingNoteDue: false,
      },
      (state, change) => ({ ...state, ...change }),
    );
    this.#place = place;
  }

  /** Fetches the recordings, so that the first stroke sounds at once. Needs no action of the user's. */
  async prepare(): Promise<void> {
    await this.#loadedKit();
  }

  /** Call it from the user's own action: browsers start sound only then. */
  async turnDrums(on: boolean): Promise<void> {
    this.dispatch({ drumsOn: on });
    if (on) await this.#openSampler();
  }

  /** From 0 (silent) to {@link VOLUME_STEPS}. */
  setVolume(step: number): void {
    const volume = Math.min(VOLUME_STEPS, Math.max(0, Math.round(step)));
    this.dispatch({ volume });
    if (this.#audio) {
      const { out, context } = this.#audio;
      // A jump would crack; this is over before the finger is off the key.
      out.gain.setTargetAtTime(volumeGain(volume), context.currentTime, 0.01);
    }
  }

  /** Says what the user listens through. The first time it is headphones, the note on hearing is due. */
  hearBy(heardBy: HeardBy): void {
    const isFirstTime = heardBy === "headphones" && !readSoundChoice(this.#place).noteRead;
    this.dispatch({ heardBy, isHearingNoteDue: isFirstTime });
    this.#keep(false);
  }

  /** The note on hearing was read. */
  hearingNoteRead(): void {
    this.dispatch({ isHearingNoteDue: false });
    this.#keep(true);
  }

  /** Says whether the kit's own strokes are sounded here. Call it from the user's own action. */
  async setKitIsSilent(kitIsSilent: boolean): Promise<void> {
    this.dispatch({ kitIsSilent });
    this.#keep(false);
    if (kitIsSilent) await this.turnDrums(true);
  }

  /** Sounds a stroke now, where drum sounds are on; as soon as the device is open where it is just opening. */
  sound(hit: Hit): void {
    if (!this.get().drumsOn) return;
    if (!this.#audio || !this.#live) {
      this.#waiting = [...this.#waiting.filter(isToBeAnswered), hit];
      return;
    }
    this.#live.strike(hit, this.#audio.context.currentTime);
    performance.clearMeasures(STRIKE_SOUNDED);
    performance.measure(STRIKE_SOUNDED, { start: hit.time * 1000, end: performance.now() });
  }

  /** Stops a cymbal that was grabbed. */
  choke(voice: Voice): void {
    if (this.#audio) this.#live?.choke(voice, this.#audio.context.currentTime);
  }

  /**
   * Plays written strokes, scheduled ahead on the audio clock. Call it from the user's own action. It sounds whether
   * or not the user's own strokes do.
   *
   * @param strokes times from 0.
   * @param from when time 0 is heard, on the session clock; soon when left out.
   * @param loopSeconds the length of one round of strokes that are repeated until stopped.
   */
  playStrokes(
    strokes: readonly Planned[],
    {
      from,
      loopSeconds,
      isTrueToPitch = false,
    }: { readonly from?: Seconds; readonly loopSeconds?: Seconds; readonly isTrueToPitch?: boolean } = {},
  ): Playing {
    // The first pairs of a device that has just opened may be off by one of its buffers: it is waited for as if it opened.
    const isReady =
      this.#live !== undefined && this.#audio !== undefined && clockOf(this.#audio.context).isSteady;
    const start = from ?? performance.now() / 1000 + (isReady ? LEAD_SECONDS : LEAD_OPENING_SECONDS);
    const plan = new StrokePlan(strokes, loopSeconds);
    let stop = (): void => {
      isStopped = true;
    };
    let isStopped = false;
    void this.#openSampler().then((opened) => {
      if (!opened || isStopped) return;
      const { context, out } = opened.audio;
      const sampler = new Sampler(context, out, opened.kit, this.#chance);
      const clock = clockOf(context);
      const look = (): void => {
        clock.look();
        const ahead = clock.isSteady ? AHEAD_SECONDS : AHEAD_UNSTEADY_SECONDS;
        for (const stroke of plan.until(performance.now() / 1000 + ahead - start)) {
          const at = clock.audioTimeAt(start + stroke.time);
          if ("isChoke" in stroke) sampler.choke(stroke.voice, at);
          else if (at > context.currentTime - TOO_LATE_SECONDS) sampler.strike(stroke, at, isTrueToPitch);
        }
        if (plan.isOver) sleep();
      };
      const sleep = clickTimer(look);
      look();
      stop = () => {
        sleep();
        sampler.silence(context.currentTime);
      };
    });
    return { from: start, stop: () => stop() };
  }

  /** Sounds strokes as they become known, ahead of time. Call it from the user's own action. */
  soundComing(): ComingStrokes {
    const coming = new ComingStrokes();
    void this.#openSampler().then((opened) => {
      if (!opened) return;
      const { context, out } = opened.audio;
      const sampler = new Sampler(context, out, opened.kit, this.#chance);
      coming.open({ sampler, clock: clockOf(context), context, wake: clickTimer });
    });
    return coming;
  }

  /**
   * Plays a stretch of sound that the program made, as a whole, on the audio clock. Call it from the user's own action.
   *
   * @param said `zeroAt` is the moment within it that is heard at `from`.
   */
  playSaid(said: {
    readonly samples: Float32Array;
    readonly sampleRate: number;
    readonly zeroAt: Seconds;
  }): Playing {
    const isReady = this.#audio !== undefined && clockOf(this.#audio.context).isSteady;
    const from = performance.now() / 1000 + (isReady ? LEAD_SECONDS : LEAD_OPENING_SECONDS);
    let source: AudioBufferSourceNode | undefined;
    let isStopped = false;
    void this.#open().then((audio) => {
      if (!audio || isStopped) return;
      const { context, out } = audio;
      const buffer = new AudioBuffer({ length: said.samples.length, sampleRate: said.sampleRate });
      buffer.getChannelData(0).set(said.samples);
      source = new AudioBufferSourceNode(context, { buffer });
      source.connect(out);
      const clock = clockOf(context);
      clock.look();
      // Where the device took long to open, it is said now: nothing else is timed by it.
      source.start(Math.max(context.currentTime, clock.audioTimeAt(from) - said.zeroAt));
    });
    return {
      from,
      stop: () => {
        isStopped = true;
        source?.stop();
      },
    };
  }

  /** The context all sound is on, opened; `undefined` where there is none. Call it from the user's own action. */
  async openContext(): Promise<AudioContext | undefined> {
    return (await this.#open())?.context;
  }

  /** Starts the click. Call it from the user's own action. */
  async startClick(click: PlayedClick): Promise<void> {
    this.stopClick();
    const asked = this.#clicksAsked;
    const opened = await this.#openSampler();
    // It may have been stopped, or another asked for, while the sound was still opening.
    if (!opened || asked !== this.#clicksAsked) return;
    const { audio, kit } = opened;
    this.#click = new ClickPlayer(audio.context, clickSound(audio.context, audio.out, kit), click);
  }

  /** The context the click sounds on; `undefined` while there is none. */
  get clickContext(): AudioContext | undefined {
    return this.#click?.context;
  }

  stopClick(): void {
    this.#clicksAsked += 1;
    this.#click?.stop();
    this.#click = undefined;
  }

  #keep(isNoteRead: boolean): void {
    const { heardBy, kitIsSilent } = this.get();
    const noteRead = isNoteRead || readSoundChoice(this.#place).noteRead;
    const trouble = keepSoundChoice(this.#place, { heardBy, kitIsSilent, noteRead });
    if (trouble !== undefined) this.dispatch({ trouble });
  }

  /** The recordings, or `undefined` where they cannot be had, with the reason said; the next call tries again. */
  async #loadedKit(): Promise<RecordedKit | undefined> {
    this.#kit ??= loadKit();
    try {
      return await this.#kit;
    } catch (error) {
      this.#kit = undefined;
      this.dispatch({
        drumsOn: false,
        trouble: `The drum sounds could not be loaded (${String(error)}). Load the page again, then turn them on again.`,
      });
      return undefined;
    }
  }

  async #openSampler(): Promise<{ readonly audio: Audio; readonly kit: RecordedKit } | undefined> {
    const [audio, kit] = await Promise.all([this.#open(), this.#loadedKit()]);
    if (!audio || !kit) return undefined;
    this.#live ??= new Sampler(audio.context, audio.out, kit, this.#chance);
    for (const hit of this.#waiting.filter(isToBeAnswered)) this.sound(hit);
    this.#waiting = [];
    return { audio, kit };
  }

  async #open(): Promise<Audio | undefined> {
    try {
      if (!this.#audio) {
        const context = new AudioContext({ latencyHint: "interactive" });
        const out = new GainNode(context, { gain: volumeGain(this.get().volume) });
        out.connect(connectCeiling(context, context.destination));
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

function isToBeAnswered({ time }: Hit): boolean {
  return performance.now() / 1000 - time < TOO_LATE_TO_ANSWER_SECONDS;
}
