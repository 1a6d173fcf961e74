/**
 * What is kept of a student, and no more: no birthday, no picture, no voice. A first name or nickname is enough.
 */
import { z } from "zod";
import { LEVELS } from "../score/index.ts";
import { idSchema, instantSchema } from "../session/index.ts";

/** Our choice: more than fits a list is not a nickname. */
export const LONGEST_NICKNAME = 60;
export const LONGEST_NOTES = 4000;

/** A day of the calendar: "2026-03-02". */
export const daySchema = z.iso.date();

/** When the lesson usually is, in the studio's own time. */
export const lessonDaySchema = z
  .object({
    /** ISO 8601: Monday is 1, Sunday 7. */
    weekday: z.int().min(1).max(7),
    /** "15:30" */
    from: z.string().regex(/^([01]\d|2[0-3]):[0-5]\d$/),
    minutes: z.int().min(5).max(240),
  })
  .readonly();
export type LessonDay = z.infer<typeof lessonDaySchema>;

/** Version 1 of a student as kept. */
export const studentSchema = z
  .object({
    version: z.literal(1),
    id: idSchema,
    nickname: z.string().trim().min(1).max(LONGEST_NICKNAME),
    level: z.enum(LEVELS),
    hand: z.enum(["right", "left"]),
    notes: z.string().max(LONGEST_NOTES),
    lessonDay: lessonDaySchema.exactOptional(),
    /** That a guardian, or a grown-up student, has agreed that records are kept: who, and on which day. */
    consent: z
      .object({ by: z.string().trim().min(1).max(200), on: daySchema })
      .readonly()
      .exactOptional(),
    archived: z.boolean(),
    addedAt: instantSchema,
    /** Made up, by the demo studio. */
    invented: z.literal(true).exactOptional(),
  })
  .readonly();
export type Student = z.infer<typeof studentSchema>;

/** Students who are taught together. Version 1 as kept. */
export const groupSchema = z
  .object({
    version: z.literal(1),
    id: idSchema,
    name: z.string().trim().min(1).max(LONGEST_NICKNAME),
    studentIds: z.array(idSchema).readonly(),
    invented: z.literal(true).exactOptional(),
  })
  .readonly();
export type Group = z.infer<typeof groupSchema>;
