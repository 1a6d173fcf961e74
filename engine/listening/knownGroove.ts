/**
 * A groove as listening knows it.
 */
import { type Groove, isCompound, type Metre } from "../score/index.ts";
import type { Bpm, Seconds } from "../units/index.ts";
import type { BarModel } from "./barModel.ts";
import type { PartLikeness, Rates } from "./likeness.ts";

/** One groove as listening knows it: one or more models of how it goes. */
export interface KnownGroove {
  readonly id: string;
  readonly name: string;
  readonly metre: Metre;
  readonly models: readonly GrooveModel[];
  /** The strokes that make it itself, for a style of the catalogue. */
  readonly own?: Groove;
  /** Whether most players play it most days. */
  readonly isEveryday?: boolean;
  /** Felt tempos at which it is at home; a far-off tempo speaks a little against it. */
  readonly tempoBpm: { readonly low: Bpm; readonly high: Bpm };
}

/** One way a groove goes. */
export interface GrooveModel extends BarModel {
  /** Felt beats of the groove's metre in one beat of the pulse: 2 in 7/8, and where the felt beat is too fast to follow. */
  readonly feltPerPulse: number;
  /** Meant for pulses with so many seconds a beat; any, when left out. */
  readonly forBeatSeconds?: { readonly from: Seconds; readonly below: Seconds };
  /** The written variant it was made of, where there is one. */
  readonly written?: Groove;
  /**
   * Of a groove known by several takes: how each of them lies on the others, as `likeness.ts` has it, on the average. A take
   * of the groove should lie about as well.
   */
  readonly amongTakes?: readonly PartLikeness[];
  /** The same takes one by one, laid as the model is: somebody new may play like one of them. */
  readonly takes?: readonly Rates[];
  /** Learnt from the player's own takes: the written variant they are nearest to. */
  readonly ownWayOf?: Groove;
}

/** The written variant a model is a way of, where there is one. */
export function variantOf({ written, ownWayOf }: GrooveModel): Groove | undefined {
  return written ?? ownWayOf;
}

/** From this felt tempo on a pulse may go with every other felt beat. Our choice: the fastest pulses lie above it. */
const FAST_BPM = 185;

/** How many felt beats go on one beat of the pulses the groove may be placed on. */
export function feltPerPulse({ metre, tempoBpm }: Pick<Groove, "metre" | "tempoBpm">): readonly number[] {
  if (metre.denominator === 8 && !isCompound(metre)) return [2];
  return tempoBpm.high > FAST_BPM ? [1, 2] : [1];
}
