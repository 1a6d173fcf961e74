/**
 * Plays strokes from the recorded kit: one source a stroke, softened by touch, stopped by the hand or by the other
 * hi-hat. One sampler is one drummer: strokes of two samplers do not stop each other.
 */
import type { Voice } from "../../engine/kit/index.ts";
import type { Chance, Seconds } from "../../engine/units/index.ts";
import type { RecordedKit } from "./recordedKit.ts";
import { NO_VARIATION, recordingKey, type Struck, stops, strokeSound, variation } from "./strokeSound.ts";

/** From full to nothing when a sound is stopped: short enough to sound grabbed, long enough not to crack. */
export const CHOKE_SECONDS: Seconds = 0.015;
/** The flattest a second-order filter can be, in decibels as Web Audio's low-pass counts it: 20·log10(1/√2). */
const FLAT_Q_DB = -3.01;

/** A stroke that is sounding, or will be. Times on the audio clock. */
interface Ringing {
  readonly voice: Voice;
  readonly startsAt: Seconds;
  stopsAt: Seconds;
  readonly source: AudioBufferSourceNode;
  readonly gain: GainNode;
}

export class Sampler {
  readonly #context: BaseAudioContext;
  readonly #out: AudioNode;
  readonly #kit: RecordedKit;
  readonly #chance: Chance;
  readonly #ringing = new Set<Ringing>();

  /** @param chance for the little variation from stroke to stroke. */
  constructor(context: BaseAudioContext, out: AudioNode, kit: RecordedKit, chance: Chance) {
    this.#context = context;
    this.#out = out;
    this.#kit = kit;
    this.#chance = chance;
  }

  /**
   * Sounds a stroke at `at` on the audio clock, or at once if that is past.
   *
   * @param isTrueToPitch leaves the variation out, where pitch or loudness is the question.
   */
  strike(struck: Struck, at: Seconds, isTrueToPitch = false): void {
    const recording = this.#kit.get(recordingKey(struck));
    if (!recording)
      throw new Error(`The recorded kit has no key ${recordingKey(struck)} for ${struck.voice}.`);
    const varied = isTrueToPitch ? NO_VARIATION : variation(this.#chance);
    const { rate, gain: loudness, cutoffHz, pan } = strokeSound(struck, recording, varied);
    const context = this.#context;
    const source = new AudioBufferSourceNode(context, { buffer: recording.buffer, playbackRate: rate });
    const soften = new BiquadFilterNode(context, { type: "lowpass", frequency: cutoffHz, Q: FLAT_Q_DB });
    const gain = new GainNode(context, { gain: loudness });
    const place = new StereoPannerNode(context, { pan });
    source.connect(soften).connect(gain).connect(place).connect(this.#out);
    const startsAt = Math.max(at, context.currentTime);
    source.start(startsAt);
    const stroke: Ringing = {
      voice: struck.voice,
      startsAt,
      stopsAt: Number.POSITIVE_INFINITY,
      source,
      gain,
    };
    source.onended = () => {
      this.#ringing.delete(stroke);
      place.disconnect();
    };
    this.#stopPartners(stroke);
    this.#ringing.add(stroke);
  }

  /** A hand on the cymbal: what rings of this voice at `at` is stopped. */
  choke(voice: Voice, at: Seconds): void {
    for (const stroke of this.#ringing) if (stroke.voice === voice) stop(stroke, at);
  }

  /** Stops everything, also what is still to come. */
  silence(at: Seconds): void {
    for (const stroke of this.#ringing) {
      if (stroke.startsAt >= at) stroke.source.stop(0);
      else stop(stroke, at);
    }
  }

  /**
   * The new stroke stops earlier ones of the hi-hat, and one that is scheduled after it already will stop it. Two at
   * the same moment sound together.
   */
  #stopPartners(next: Ringing): void {
    for (const other of this.#ringing) {
      if (!stops(next.voice, other.voice)) continue;
      if (other.startsAt < next.startsAt) stop(other, next.startsAt);
      if (other.startsAt > next.startsAt) stop(next, other.startsAt);
    }
  }
}

/** Stops a stroke at `at`, unless it has not begun by then or was stopped before. */
function stop(stroke: Ringing, at: Seconds): void {
  if (stroke.startsAt > at || stroke.stopsAt <= at) return;
  stroke.stopsAt = at;
  const full = stroke.gain.gain.value;
  stroke.gain.gain.cancelScheduledValues(0);
  stroke.gain.gain.setValueAtTime(full, at);
  stroke.gain.gain.linearRampToValueAtTime(0, at + CHOKE_SECONDS);
  stroke.source.stop(at + CHOKE_SECONDS);
}
