/**
 * One line of a lesson's log: append-only, the only thing that is stored as it happens. Everything else of a lesson is
 * derived from its events, live and in replay by the same fold.
 *
 * `seq` counts the lesson's events from 1, without gaps. `time` is in seconds on the lesson's clock: 0 where the lesson
 * began, running on evenly whatever the computer's calendar does; only `at` is an instant of the calendar. `lane` says on
 * which kit: the index of one of the lesson's lanes.
 */
import { z } from "zod";
import { VOICES, ZONES } from "../kit/index.ts";
import { roundStepSchema } from "../rounds/index.ts";
import { clickWaySchema } from "../score/index.ts";
import { idSchema, instantSchema, itemResultSchema } from "./itemResult.ts";
import { ROUND_KINDS } from "./roundKind.ts";
import { namedGrooveSchema, takeSummarySchema } from "./takeSummary.ts";

/** Longer remarks are letters. Our choice. */
export const LONGEST_REMARK = 2000;

const share = z.number().min(0).max(1);

export const hitSchema = z
  .object({
    time: z.number(),
    voice: z.enum(VOICES),
    zone: z.enum(ZONES),
    velocity: share,
    openness: share.exactOptional(),
    pad: z.int().min(0).max(127),
  })
  .readonly();

/** Who sits at a kit, and where its strikes come from. */
export const laneSchema = z
  .object({
    /** `null`: the teacher, or nobody in particular. */
    studentId: idSchema.nullable(),
    source: z.enum(["kit", "keyboard", "demonstration"]),
    /** The kit's own name, where it has one. */
    kit: z.string().max(200).exactOptional(),
  })
  .readonly();
export type Lane = z.infer<typeof laneSchema>;

/** The click a take was played to. */
export const loggedClickSchema = z
  .object({
    tempoBpm: z.number().positive(),
    /** The first beat that counts, on the lesson's clock. */
    from: z.number(),
    way: clickWaySchema.exactOptional(),
    countInBars: z.int().min(0).exactOptional(),
  })
  .readonly();
export type LoggedClick = z.infer<typeof loggedClickSchema>;

const placed = {
  seq: z.int().min(1),
  time: z.number(),
  lane: z.int().min(0).max(31),
};

const began = z.object({
  kind: z.literal("lesson-began"),
  ...placed,
  lessonId: idSchema,
  at: instantSchema,
  /** The IANA name of the zone the studio is in: "Europe/Vienna". It tells which day it was there. */
  zone: z.string().min(1).max(80),
  studentIds: z.array(idSchema).readonly(),
  lanes: z.array(laneSchema).min(1).max(32).readonly(),
  /** Made up, by the demo studio. */
  invented: z.literal(true).exactOptional(),
});

const takeBegan = z.object({
  kind: z.literal("take-began"),
  ...placed,
  roundId: idSchema,
  takeId: idSchema,
  studentId: idSchema.nullable(),
  /** What was called; `null` for a free choice. */
  called: namedGrooveSchema.nullable(),
  /** Grid text of a groove of the Shelf that was called, as it was then; a style is known by its id. */
  calledGrid: z.string().exactOptional(),
  click: loggedClickSchema.nullable(),
  /** Strikes before this moment are of the count-in. */
  from: z.number(),
});

const judgement = z.object({
  kind: z.literal("judgement"),
  ...placed,
  summary: takeSummarySchema,
  /** Grid text of the groove the take was compared with, as it was then; `null` when there was none. */
  comparedGrid: z.string().nullable(),
});

export const sessionEventSchema = z.discriminatedUnion("kind", [
  began.readonly(),
  /** A strike; its own `time` is the event's. In storage, strikes stand in batches. */
  z.object({ kind: z.literal("hit"), ...placed, hit: hitSchema }).readonly(),
  z
    .object({
      kind: z.literal("round-began"),
      ...placed,
      roundId: idSchema,
      round: z.enum(ROUND_KINDS),
      studentIds: z.array(idSchema).readonly(),
    })
    .readonly(),
  /** A step of a round that is kept step by step: its state is the fold of its steps. */
  z.object({ kind: z.literal("round-step"), ...placed, roundId: idSchema, step: roundStepSchema }).readonly(),
  takeBegan.readonly(),
  z.object({ kind: z.literal("take-ended"), ...placed, takeId: idSchema }).readonly(),
  judgement.readonly(),
  z
    .object({
      kind: z.literal("round-ended"),
      ...placed,
      roundId: idSchema,
      tally: z.array(itemResultSchema).readonly(),
    })
    .readonly(),
  /** A command, by a strike that is never music, a key or a button. */
  z
    .object({
      kind: z.literal("command"),
      ...placed,
      command: z.enum(["next", "again", "turn-round", "stop", "flag"]),
      by: z.enum(["strike", "key", "button"]),
    })
    .readonly(),
  /** The teacher's words on this moment; flagged ones are looked at first. */
  z
    .object({
      kind: z.literal("remark"),
      ...placed,
      remarkId: idSchema,
      text: z.string().max(LONGEST_REMARK),
      flagged: z.boolean(),
      /** The moment it is about, where that is another than when it was written. */
      about: z.number().exactOptional(),
    })
    .readonly(),
  z.object({ kind: z.literal("remark-withdrawn"), ...placed, remarkId: idSchema }).readonly(),
  z.object({ kind: z.literal("paused"), ...placed, at: instantSchema }).readonly(),
  z.object({ kind: z.literal("resumed"), ...placed, at: instantSchema }).readonly(),
  /** The program was opened again within a lesson that had not ended; what was being played is over. */
  z.object({ kind: z.literal("taken-up-again"), ...placed, at: instantSchema }).readonly(),
  z.object({ kind: z.literal("lesson-ended"), ...placed, at: instantSchema }).readonly(),
]);

export type SessionEvent = z.infer<typeof sessionEventSchema>;
export type EventOf<Kind extends SessionEvent["kind"]> = Extract<SessionEvent, { readonly kind: Kind }>;
