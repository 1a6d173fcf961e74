/** What was played of an exchange, as it is kept for the timeline of its form: turns and strokes from the form's beginning. */
import { z } from "zod";
import { VOICES } from "../../kit/index.ts";
import { type PlayedTurn, type Side, type TradedHit, TURN_PARTS } from "../../trading/index.ts";
import type { Seconds } from "../../units/index.ts";

export const sideSchema = z.union([z.literal(0), z.literal(1)]);
/** More than are struck in two turns of eight bars; of longer free ones the latest are kept. Our choice. */
const MOST_STROKES = 2000;
const seconds = z.number().min(-60).max(86_400);

export const exchangeTimelineSchema = z
  .object({
    turns: z
      .array(
        z.object({ part: z.enum(TURN_PARTS), side: sideSchema, from: seconds, until: seconds }).readonly(),
      )
      .max(4)
      .readonly(),
    strokes: z
      .array(
        z
          .object({
            time: seconds,
            side: sideSchema,
            voice: z.enum(VOICES),
            velocity: z.number().min(0).max(1),
          })
          .readonly(),
      )
      .max(MOST_STROKES)
      .readonly(),
  })
  .readonly();
export type ExchangeTimeline = z.infer<typeof exchangeTimelineSchema>;

/** On a shared kit a stroke so little before the line already belongs to the next turn. Our choice. */
const EARLY_SECONDS: Seconds = 0.05;

/**
 * @param turns of the exchange, in order.
 * @param hits what was struck since the exchange before.
 * @param began the moment of the form's first beat.
 */
export function exchangeTimeline(
  turns: readonly PlayedTurn[],
  hits: readonly TradedHit[],
  began: Seconds,
): ExchangeTimeline {
  const sideAt = (time: Seconds): Side =>
    (turns.findLast(({ from }) => from <= time + EARLY_SECONDS) ?? turns[0])?.turn.side ?? 0;
  return {
    turns: turns.map(({ turn: { part, side }, from, until }) => ({
      part,
      side,
      from: rounded(from - began, 1000),
      until: rounded(until - began, 1000),
    })),
    strokes: hits.slice(-MOST_STROKES).map(({ time, side, voice, velocity }) => ({
      time: rounded(time - began, 1000),
      side: side ?? sideAt(time),
      voice,
      velocity: rounded(velocity, 100),
    })),
  };
}

function rounded(value: number, parts: number): number {
  return Math.round(value * parts) / parts;
}
