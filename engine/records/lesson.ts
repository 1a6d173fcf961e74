/** What lists show of a lesson; derived from its events, and stored so that no list has to read them. */
import { z } from "zod";
import { idSchema, instantSchema, type LessonState, localDay } from "../session/index.ts";
import type { Seconds } from "../units/index.ts";

export const lessonSchema = z
  .object({
    version: z.literal(1),
    /** Ids of lessons sort by when they began: see {@link lessonIdAt}. */
    id: idSchema,
    studentIds: z.array(idSchema).readonly(),
    at: instantSchema,
    zone: z.string().min(1),
    /** The day it began on, in its own zone: a lesson past midnight is one day. */
    day: z.iso.date(),
    endedAt: instantSchema.nullable(),
    /** As far as the log goes, on the lesson's own clock. */
    seconds: z.number().min(0),
    rounds: z.int().min(0),
    takes: z.int().min(0),
    hits: z.int().min(0),
    flags: z.int().min(0),
    invented: z.literal(true).exactOptional(),
  })
  .readonly();
export type LessonRecord = z.infer<typeof lessonSchema>;

/**
 * An id for a lesson that begins now. Ids sort by time, so that every list of lessons is in order without another index.
 *
 * @param at ISO 8601 instant in UTC.
 * @param chance tells two lessons apart that begin in the same millisecond; letters and digits.
 * @example
 * lessonIdAt("2026-03-02T15:30:00.000Z", "k3f9") // => "2026-03-02T15:30:00.000Z~k3f9"
 */
export function lessonIdAt(at: string, chance: string): string {
  return `${at}~${chance}`;
}

/** The lesson as lists show it; `null` while it has not begun. */
export function lessonRecord(state: LessonState): LessonRecord | null {
  const { began } = state;
  if (!began) return null;
  return {
    version: 1,
    id: began.lessonId,
    studentIds: began.studentIds,
    at: began.at,
    zone: began.zone,
    day: localDay(began.at, began.zone),
    endedAt: state.endedAt,
    seconds: lastMoment(state),
    rounds: state.rounds.length,
    takes: state.rounds.reduce((sum, { takes }) => sum + takes.length, 0),
    hits: state.hitCount,
    flags: state.remarks.filter(({ flagged }) => flagged).length,
    ...(began.invented ? { invented: true as const } : {}),
  };
}

function lastMoment({ time }: LessonState): Seconds {
  return Math.max(0, time);
}
