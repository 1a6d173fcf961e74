/**
 * What lists show of a take, stored with it so that no list has to grade again. The whole report is graded anew, from the
 * hits, where one take is opened.
 * Sign: a lean below 0 is ahead. `null` is a figure that could not be told.
 */
import { z } from "zod";
import { VOICES } from "../kit/index.ts";
import { LEVELS } from "../score/index.ts";
import { idSchema, instantSchema } from "./itemResult.ts";
import { ROUND_KINDS } from "./roundKind.ts";

const count = z.int().min(0);
const ms = z.number().nullable();

/** A groove by its id (of a style, or of an entry of the Shelf) and the name it had then. */
export const namedGrooveSchema = z.object({ id: z.string().min(1), name: z.string() }).readonly();
export type NamedGroove = z.infer<typeof namedGrooveSchema>;

export const takeSummarySchema = z
  .object({
    takeId: idSchema,
    lessonId: idSchema,
    roundId: idSchema,
    /** Who played; `null` where no student was chosen, or the teacher played. */
    studentId: idSchema.nullable(),
    at: instantSchema,
    round: z.enum(ROUND_KINDS),
    /** Where it lies in the lesson, on the lesson's clock. */
    fromSeconds: z.number(),
    seconds: z.number().min(0),
    hitCount: count,
    /** What was called; `null` for a free choice. */
    called: namedGrooveSchema.nullable(),
    /** What it was compared with; `null` when there was nothing to compare with. */
    groove: namedGrooveSchema.nullable(),
    /** What was heard, and how surely, 0 to 1; `null` when none that is known. */
    heard: namedGrooveSchema
      .unwrap()
      .extend({ confidence: z.number().min(0).max(1) })
      .readonly()
      .nullable(),
    /**
     * The student's level then: the band it was laid against is of this level, whatever the student's is now. `null` where
     * it was laid against nothing, and in takes kept before levels were.
     */
    level: z.enum(LEVELS).nullable(),
    clicked: z.boolean(),
    tempoBpm: z.number().positive().nullable(),
    leanMs: ms,
    spreadMs: ms,
    driftPercent: z.number().nullable(),
    swingRatio: z.number().nullable(),
    voiceAccuracy: z.number().min(0).max(1).nullable(),
    /** The one thing to work on: its kind, and the sentence that was shown. */
    workOn: z.object({ kind: z.string(), words: z.string() }).readonly().nullable(),
    beats: z.array(z.object({ beat: z.int().min(1), count, leanMs: ms, spreadMs: ms }).readonly()).readonly(),
    voices: z
      .array(
        z
          .object({
            voice: z.enum(VOICES),
            written: count,
            asWritten: count,
            otherSound: count,
            leftOut: count,
            added: count,
            leanMs: ms,
            spreadMs: ms,
          })
          .readonly(),
      )
      .readonly(),
  })
  .readonly();
export type TakeSummary = z.infer<typeof takeSummarySchema>;
