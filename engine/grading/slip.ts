/**
 * What a slip of the form is: the player left the written place as a whole, and played on from another.
 */
import type { Milliseconds } from "../units/index.ts";

/** Where the form of the take left what is written. Bars and beats are the written ones at which it happened, from 1. */
export type FormSlip =
  /** With a shared start: the first stroke came a beat or more before or after the first written one. */
  | {
      readonly kind: "entry";
      readonly bar: number;
      readonly beat: number;
      /** Positive when late. */
      readonly byBeats: number;
      readonly byMs: Milliseconds;
      readonly strokes: number;
    }
  | {
      readonly kind: "bars-dropped" | "bars-added";
      readonly bar: number;
      readonly beat: number;
      readonly bars: number;
      readonly strokes: number;
    }
  /** Whole bars of silence, after which the player went on in place. */
  | {
      readonly kind: "bars-silent";
      readonly bar: number;
      readonly beat: number;
      readonly bars: number;
      readonly strokes: number;
    }
  /** The player stopped, and went on at another place of the page or off the beat. */
  | {
      readonly kind: "stopped";
      /** Where the last stroke before the stop is written, and the first one after it. */
      readonly bar: number;
      readonly beat: number;
      readonly onBar: number;
      readonly onBeat: number;
      readonly silenceMs: Milliseconds;
      readonly strokes: number;
    }
  /** From here on the groove lies `byBeats` later (positive) or earlier (negative) than written. */
  | {
      readonly kind: "turned-round";
      readonly bar: number;
      readonly beat: number;
      readonly byBeats: number;
      /** The bar in which it came right again; `null` when it did not. */
      readonly untilBar: number | null;
      readonly strokes: number;
    }
  /** The one after a fill or a phrase of four bars lies off its neighbours by more than the band. */
  | {
      readonly kind: "one-off-place";
      readonly bar: number;
      readonly beat: number;
      /** Negative early, positive late, against the bars around it. */
      readonly byMs: Milliseconds;
      readonly afterFill: boolean;
      readonly strokes: number;
    };

export interface FormFigures {
  /** In order of the take; empty when the form held. Each `strokes`: how many strokes the slip put out of place. */
  readonly slips: readonly FormSlip[];
}
