import type { Hand } from "../../score/index.ts";
import type { Seconds, Velocity } from "../../units/index.ts";

/** One strike of a performance on two surfaces, one for each hand. In order of time. */
export interface PlayedStroke {
  readonly time: Seconds;
  readonly hand: Hand;
  readonly velocity: Velocity;
}

/** What a strike is: a place of the rudiment, one too many, or another bounce of the stroke before it. */
export type PlaceOfStroke = number | "added" | "bounce";
