import type { MidiMessage } from "../../engine/kit/index.ts";
import type { Seconds } from "../../engine/units/index.ts";

/** A MIDI message and when it was sent, on the session clock (`performance.now()` in seconds). */
export interface TimedMessage {
  readonly time: Seconds;
  readonly message: MidiMessage;
}
