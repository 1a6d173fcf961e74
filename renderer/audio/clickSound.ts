/**
 * The sound of the click: a stroke on the recorded kit, from the same sampler as every other sound. It is the side stick,
 * raised by a fifth, so that nobody takes it for a stroke of their own; what stands out is louder and brighter, what lies
 * between the beats softer and duller.
 */
import type { Voice } from "../../engine/kit/index.ts";
import type { ClickWeight } from "../../engine/score/index.ts";
import type { Seconds, Velocity } from "../../engine/units/index.ts";
import type { RecordedKit, Recording } from "./recordedKit.ts";
import { Sampler } from "./sampler.ts";
import { NO_VARIATION, recordingKey, strokeSound } from "./strokeSound.ts";

const VOICE: Voice = "clave";
/** How hard each is struck. One pitch for all: recordings at other rates would rise at other moments. Our choice. */
const TOUCH: Readonly<Record<ClickWeight, Velocity>> = { accent: 1, beat: 0.65, between: 0.4 };
/** Then a hand is laid on it: what rings on would hide the next one, and the player's soft strokes. Our choice. */
const RINGS_SECONDS: Seconds = 0.05;
/** A sound is placed where it reaches a tenth of its peak: the microphone looks for it there, too (`clickOnset.ts`). */
const RISE_SHARE = 0.1;

/** What plays a click; times on the audio clock. */
export interface ClickSound {
  /** A stroke begins so long before it is heard: it cannot be scheduled later. */
  readonly riseSeconds: Seconds;
  /** Sounds so that the rise is over at `at`. */
  readonly sound: (weight: ClickWeight, at: Seconds) => void;
  /** Silent from now on, what was scheduled too. */
  readonly silence: () => void;
}

/** @throws Error where the kit lacks the recording. */
export function clickSound(context: BaseAudioContext, out: AudioNode, kit: RecordedKit): ClickSound {
  const key = recordingKey({ voice: VOICE });
  const recording = kit.get(key);
  if (!recording) throw new Error(`The recorded kit has no key ${key} for the click.`);
  // The bank mixes it below the drums; a click stands beside the loudest of them.
  const level = new GainNode(context, { gain: 10 ** (-recording.levelDb / 20) });
  level.connect(out);
  // No click differs from another: nothing is left to chance.
  const sampler = new Sampler(context, level, kit, () => 0.5);
  const rate = strokeSound({ voice: VOICE, velocity: 1 }, recording, NO_VARIATION).rate;
  const riseSeconds = riseOf(recording) / rate;
  return {
    riseSeconds,
    sound: (weight, at) => {
      sampler.strike({ voice: VOICE, velocity: TOUCH[weight] }, at - riseSeconds, true);
      sampler.choke(VOICE, at + RINGS_SECONDS);
    },
    silence: () => {
      sampler.silence(context.currentTime);
    },
  };
}

/** From the beginning of a recording to where it reaches {@link RISE_SHARE} of its peak. */
function riseOf({ buffer }: Pick<Recording, "buffer">): Seconds {
  const samples = buffer.getChannelData(0);
  const peak = samples.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
  return samples.findIndex((sample) => Math.abs(sample) >= RISE_SHARE * peak) / buffer.sampleRate;
}
