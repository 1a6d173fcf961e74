/** A lesson's events as rows; strikes are kept apart, in chunks. What lists ask for is derived from them on the way. */
import { z } from "zod";
import {
  idSchema,
  itemResultSchema,
  type SessionEvent,
  sessionEventSchema,
  takeSummarySchema,
} from "../session/index.ts";
import { type HitChunk, type HitEvent, packHits } from "./hitChunk.ts";

const keptEventSchema = sessionEventSchema.refine(
  ({ kind }) => kind !== "hit",
  "a strike is kept in a chunk, not alone",
);

export const storedEventSchema = z
  .object({ version: z.literal(3), lessonId: idSchema, seq: z.int().min(1), event: keptEventSchema })
  .refine(({ seq, event }) => seq === event.seq, "the row’s number is not its event’s")
  .readonly();
export type StoredEvent = z.infer<typeof storedEventSchema>;

/** Evidence about one item; `day` is the day its lesson began on, `place` counts the results of one event from 0. */
export const storedResultSchema = itemResultSchema
  .unwrap()
  .extend({
    version: z.literal(1),
    lessonId: idSchema,
    day: z.iso.date(),
    seq: z.int().min(1),
    place: z.int().min(0),
  })
  .readonly();
export type StoredResult = z.infer<typeof storedResultSchema>;

export const storedTakeSchema = takeSummarySchema
  .unwrap()
  .extend({ version: z.literal(2), day: z.iso.date() })
  .readonly();
export type StoredTake = z.infer<typeof storedTakeSchema>;

/** The rows that some events of a lesson make. */
export interface LessonRows {
  readonly events: readonly StoredEvent[];
  readonly hits: readonly HitChunk[];
  readonly takes: readonly StoredTake[];
  readonly results: readonly StoredResult[];
}

/**
 * @param day on which the lesson began, in its own zone.
 * @param events in order of `seq`; all strikes among them go into one chunk.
 */
export function rowsOf(lessonId: string, day: string, events: readonly SessionEvent[]): LessonRows {
  const strikes = events.filter((event): event is HitEvent => event.kind === "hit");
  const others = events.filter(({ kind }) => kind !== "hit");
  return {
    events: others.map((event) => ({ version: 3, lessonId, seq: event.seq, event })),
    hits: strikes.length > 0 ? [packHits(lessonId, strikes)] : [],
    takes: others.flatMap((event) =>
      event.kind === "judgement" ? [{ version: 2 as const, day, ...event.summary }] : [],
    ),
    results: others.flatMap((event) => {
      if (event.kind !== "round-ended") return [];
      return event.tally.map((result, place) => ({
        version: 1 as const,
        ...result,
        lessonId,
        day,
        seq: event.seq,
        place,
      }));
    }),
  };
}
