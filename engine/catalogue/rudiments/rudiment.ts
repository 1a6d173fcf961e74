/**
 * A rudiment: a short pattern of hands that drummers learn by name.
 */
import type { Hand, Metre } from "../../score/index.ts";
import type { Bpm, Fraction } from "../../units/index.ts";

/** The families of the published sheet, in its order. */
export const RUDIMENT_FAMILIES = ["roll", "diddle", "flam", "drag"] as const;
export type RudimentFamily = (typeof RUDIMENT_FAMILIES)[number];

/** What a family is called over its rudiments. */
export const RUDIMENT_FAMILY_NAMES: Readonly<Record<RudimentFamily, string>> = {
  roll: "Rolls",
  diddle: "Diddles",
  flam: "Flams",
  drag: "Drags",
};

/** Rolls come in three parts: of single strokes, of strokes that bounce more than once, and of doubles. */
export type RollPart = "single" | "bounce" | "double";

/** One main stroke of a rudiment, with the grace strokes before it. */
export interface RudimentStroke {
  /** Felt beats from the start of the cycle, exact. */
  readonly position: Fraction;
  /** Felt beats until the next written stroke may begin, exact. */
  readonly length: Fraction;
  readonly hand: Hand;
  /** Soft strokes of the other hand just before it: one in a flam, two in a drag. */
  readonly graces: 0 | 1 | 2;
  readonly accent: boolean;
  /** One movement of the hand, several bounces of the stick. */
  readonly bounced: boolean;
}

export interface Rudiment {
  /** `flam-tap`. */
  readonly id: string;
  /** 1 to 40, its place on the sheet. */
  readonly number: number;
  readonly name: string;
  /** Other names in use. */
  readonly otherNames: readonly string[];
  readonly family: RudimentFamily;
  readonly rollPart?: RollPart;
  readonly metre: Metre;
  /** Tempos at which students meet it, in felt beats a minute. */
  readonly tempoBpm: { readonly low: Bpm; readonly high: Bpm };
  /**
   * One cycle, after which it begins again with the same hand. Where the two leads are written one after the other, the
   * cycle holds both.
   */
  readonly strokes: readonly RudimentStroke[];
  /** The places in `strokes` at which a lead begins: 0, and the other hand's where the cycle holds both. */
  readonly leads: readonly number[];
  /** Length of the cycle in felt beats. */
  readonly beats: Fraction;
}
