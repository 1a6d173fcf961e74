import type { NoteNumber, Seconds, Velocity } from "../units/index.ts";
import type { Voice } from "./voice.ts";

/** Where on the pad the stick landed. `whole` when the kit does not tell zones apart. */
export const ZONES = ["whole", "head", "rim", "bow", "edge", "bell", "pedal"] as const;
export type Zone = (typeof ZONES)[number];

/** One strike as the kit reported it. */
export interface Hit {
  /** Session clock. */
  readonly time: Seconds;
  readonly voice: Voice;
  readonly zone: Zone;
  readonly velocity: Velocity;
  /** Hi-hats only, when the kit reports the pedal: 0 shut to 1 wide open. */
  readonly openness?: number;
  /** The key number the kit sent. */
  readonly pad: NoteNumber;
}
