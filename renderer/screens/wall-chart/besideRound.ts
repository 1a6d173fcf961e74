import type { PlayedStroke, StickingReport } from "../../../engine/recall/index.ts";
import type { PlayerId } from "../../../engine/rounds/index.ts";
import type { Seconds } from "../../../engine/units/index.ts";

/** What became of the last name that was typed. */
export type Typed =
  | { readonly as: "nothing" }
  | { readonly as: "named" | "repeated" | "elsewhere"; readonly given: string; readonly entry: string }
  | { readonly as: "unclear"; readonly given: string; readonly perhaps: readonly string[] }
  | { readonly as: "none"; readonly given: string };

/** What is beside the round, and shown with it: nothing of it is kept. */
export interface BesideRound {
  readonly typed: Typed;
  /** Whole seconds of the look that are left. */
  readonly leftSeconds: Seconds;
  /** The page of the chart that is open, from 0. */
  readonly page: number;
  /** Stickings that are offered for the rudiment asked. */
  readonly offered: readonly string[];
  /** Strikes on the two pads for the rudiment asked, by the one who plays now. */
  readonly played: readonly PlayedStroke[];
  /** How many of them were struck before the program was opened again. */
  readonly earlier: number;
  /** What was played of the rudiment asked, as it was found. */
  readonly reports: readonly { readonly by: PlayerId | null; readonly report: StickingReport }[];
  /** Why what was played says nothing. */
  readonly trouble: string | null;
}

export const NOTHING_BESIDE: BesideRound = {
  typed: { as: "nothing" },
  leftSeconds: 0,
  page: 0,
  offered: [],
  played: [],
  earlier: 0,
  reports: [],
  trouble: null,
};
