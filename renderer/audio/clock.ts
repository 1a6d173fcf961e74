/**
 * The one place where the two clocks meet: the session clock (`performance.now()`) and the audio clock.
 * Source: Web Audio API, W3C: `getOutputTimestamp` pairs the moment a sample leaves the device with both.
 */
import type { Seconds } from "../../engine/units/index.ts";

/** The clock of an audio context. */
export type AudioClock = Pick<AudioContext, "currentTime" | "outputLatency" | "getOutputTimestamp">;

/**
 * The audio time at which a sound must be scheduled to be heard at `sessionTime`.
 */
export function audioTimeAt(context: AudioClock, sessionTime: Seconds): Seconds {
  const { contextTime, performanceTime } = context.getOutputTimestamp();
  if (contextTime !== undefined && performanceTime !== undefined && performanceTime > 0) {
    return contextTime + sessionTime - performanceTime / 1000;
  }
  // Before the first sample has left the device there is no pair: use the latency the device declares.
  return context.currentTime + sessionTime - performance.now() / 1000 - context.outputLatency;
}
