import type { Hit } from "../../../engine/kit/index.ts";
import type { Bpm } from "../../../engine/units/index.ts";

/** A human take played to a click that starts at time 0. */
export interface HumanTake {
  readonly id: string;
  readonly bpm: Bpm;
  readonly beatsInBar: number;
  readonly hits: readonly Hit[];
}
