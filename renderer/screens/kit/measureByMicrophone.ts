/**
 * Measuring a set-up with the microphone: it hears the click, then the sticks. What is left after taking one from the
 * other is the set-up alone (see `measuredByMicrophone` of the engine): neither the player nor the microphone is in it.
 */
import { FEWEST_HEARD, type Middle, measuredByMicrophone, type SetUp } from "../../../engine/kit/index.ts";
import { FOUR_FOUR, plainClick } from "../../../engine/score/index.ts";
import { beatSeconds, type Milliseconds, type Seconds, toMs } from "../../../engine/units/index.ts";
import { Microphone, MicrophoneError } from "../../audio/clickMicrophone.ts";
import { NOISE_SECONDS, onsetIn } from "../../audio/clickOnset.ts";
import { clockOf } from "../../audio/clock.ts";
import type { SoundDesk } from "../../audio/soundDesk.ts";
import type { HeardKit } from "../../session/heardKit.ts";
import type { Source } from "../../session/kitLog.ts";
import { Store } from "../../session/store.ts";
import { MEASURING_BPM } from "./measureByStriking.ts";

export type Hearing =
  | { readonly stage: "before" }
  | { readonly stage: "asking" }
  | { readonly stage: "clicks" | "sticks"; readonly heard: number }
  | {
      readonly stage: "heard";
      readonly setUp: SetUp;
      readonly middle: Pick<Middle, "middleMs" | "giveOrTakeMs">;
    }
  | { readonly stage: "trouble"; readonly reason: string };

/** Sounds asked for of each kind. A machine is steady, and room noise is left out with the slips. Our choice. */
export const SOUNDS_ASKED = 12;
const BREATH_SECONDS: Seconds = 0.8;
/** A click may be heard so much later than it was sent: the slowest wireless headphones and a slow microphone. */
const LATEST_CLICK_SECONDS: Seconds = 0.5;
/** The stick is heard before its message (a slow kit) or after it (a slow microphone). */
const EARLIEST_STICK_SECONDS: Seconds = 0.15;
const LATEST_STICK_SECONDS: Seconds = 0.35;
const LOOK_MS = 50;

export class MicrophoneMeasure extends Store<Hearing, Hearing> {
  readonly #kit: HeardKit;
  readonly #sound: SoundDesk;
  #end: (() => void) | undefined;
  /** Counts beginnings, so that one that was stopped while it was asking goes no further. */
  #begun = 0;

  constructor(kit: HeardKit, sound: SoundDesk) {
    super({ stage: "before" }, (_, next) => next);
    this.#kit = kit;
    this.#sound = sound;
  }

  stop(): void {
    this.#begun += 1;
    this.#end?.();
    this.#end = undefined;
    this.#sound.stopClick();
    this.dispatch({ stage: "before" });
  }

  /** Begins. Call it from the user's own action: sound and microphone are asked for. */
  async start(): Promise<void> {
    this.stop();
    const begun = this.#begun;
    this.dispatch({ stage: "asking" });
    const way = plainClick(FOUR_FOUR);
    // Sound is opened by a click that begins when the microphone is there.
    await this.#sound.startClick({
      way,
      tempoBpm: MEASURING_BPM,
      from: Number.MAX_SAFE_INTEGER,
      countInBars: 0,
    });
    const context = this.#sound.clickContext;
    if (!context || begun !== this.#begun) return;
    try {
      const microphone = await Microphone.open(context);
      if (begun !== this.#begun) return microphone.close();
      this.#end = () => microphone.close();
      await this.#hearClicks(context, microphone);
    } catch (error) {
      if (!(error instanceof MicrophoneError)) throw error;
      this.#trouble(error.message);
    }
  }

  #trouble(reason: string): void {
    this.stop();
    this.dispatch({ stage: "trouble", reason });
  }

  async #hearClicks(context: AudioContext, microphone: Microphone): Promise<void> {
    const from = performance.now() / 1000 + BREATH_SECONDS;
    const click = { way: plainClick(FOUR_FOUR), tempoBpm: MEASURING_BPM, from, countInBars: 0 };
    await this.#sound.startClick(click);
    this.dispatch({ stage: "clicks", heard: 0 });
    const clock = clockOf(context);
    const late: Milliseconds[] = [];
    let next = 0;
    let sent: Seconds | undefined;
    this.#every(context, microphone, () => {
      const due = from + next * beatSeconds(MEASURING_BPM);
      if (performance.now() / 1000 < due) return;
      // By the clocks as they stand when it is due: a device that loses a buffer afterwards moves neither end.
      sent ??= clock.audioTimeAt(due);
      if (microphone.heardUntil < sent + LATEST_CLICK_SECONDS) return;
      next += 1;
      const heard = onsetIn(microphone.between(sent - NOISE_SECONDS, sent + LATEST_CLICK_SECONDS));
      if (heard !== undefined) late.push(toMs(heard - sent));
      sent = undefined;
      this.dispatch({ stage: "clicks", heard: late.length });
      if (next < SOUNDS_ASKED) return;
      if (late.length < FEWEST_HEARD)
        this.#trouble(
          "The microphone did not hear the click clearly. Let it come out of the loudspeakers, turn it up, bring the microphone near, and try again.",
        );
      else this.#hearSticks(context, microphone, late);
    });
  }

  #hearSticks(context: AudioContext, microphone: Microphone, clicksHeardMs: readonly Milliseconds[]): void {
    this.#sound.stopClick();
    this.dispatch({ stage: "sticks", heard: 0 });
    const kit = this.#kit;
    const { log } = kit;
    const clock = clockOf(context);
    const late: Milliseconds[] = [];
    /** Audio times of strikes whose sound is not there yet: by the clocks as they stood when each came. */
    const waiting: Seconds[] = [];
    let struck: Source | undefined;
    let seen = log.get();
    this.#every(context, microphone, () => {
      for (let entry = log.entries[seen]; entry; seen += 1, entry = log.entries[seen]) {
        const { event, source, live } = entry;
        if (!live || event.kind !== "hit" || source === "demonstration" || source === "far") continue;
        if (source !== (struck ?? source)) continue;
        struck = source;
        waiting.push(clock.audioTimeAt(event.hit.time + kit.lateSeconds(source)));
      }
      while (late.length < SOUNDS_ASKED) {
        const [stamp] = waiting;
        if (stamp === undefined || microphone.heardUntil < stamp + LATEST_STICK_SECONDS) return;
        waiting.shift();
        const window = microphone.between(
          stamp - EARLIEST_STICK_SECONDS - NOISE_SECONDS,
          stamp + LATEST_STICK_SECONDS,
        );
        const heard = onsetIn(window);
        if (heard !== undefined) late.push(toMs(heard - stamp));
        this.dispatch({ stage: "sticks", heard: late.length });
      }
      const setUp = struck && kit.setUpOf(struck);
      const middle = measuredByMicrophone(clicksHeardMs, late);
      this.stop();
      if (setUp && middle) this.dispatch({ stage: "heard", setUp, middle });
      else this.#trouble("Too little was heard to tell. Try again where it is quieter.");
    });
  }

  /** Looks now and then, until stopped or called again. */
  #every(context: AudioContext, microphone: Microphone, look: () => void): void {
    this.#stopLooking?.();
    const timer = setInterval(() => {
      // While no click sounds nobody else looks at the clocks, and a device that loses a buffer moves them apart.
      clockOf(context).look();
      look();
    }, LOOK_MS);
    this.#stopLooking = () => clearInterval(timer);
    this.#end = () => {
      clearInterval(timer);
      microphone.close();
    };
  }

  #stopLooking: (() => void) | undefined;
}
