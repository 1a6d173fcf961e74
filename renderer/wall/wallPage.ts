/**
 * What the book window sends to the wall view: the same page, in the few things that can be read from two
 * metres. The two windows share no memory, so what comes is checked.
 */
import { z } from "zod";
import { VOICES } from "../../engine/kit/index.ts";

export const WALL_CHANNEL = "throneside-wall";

const ringSchema = z.object({
  grooveId: z.string().nullable(),
  beats: z.number().positive().nullable(),
  played: z.array(z.object({ voice: z.enum(VOICES), place: z.number(), differs: z.boolean() })),
  /** Where the hand is: a moment of the book's session clock at which a turn began, and a turn's length. */
  turn: z
    .object({ fromSeconds: z.number(), seconds: z.number().positive(), beats: z.number().positive() })
    .nullable(),
  label: z.string(),
});

const pageSchema = z.object({
  kind: z.literal("page"),
  /** `performance.timeOrigin` of the book window: the zero of its session clock. */
  timeOriginMs: z.number(),
  title: z.string(),
  sub: z.string(),
  says: z.array(z.string()),
  /** The bar that is counted before the take, on the book's session clock. */
  countIn: z
    .object({ until: z.number(), beatSeconds: z.number().positive(), beats: z.number().positive() })
    .nullable(),
  ring: ringSchema.nullable(),
  /** On the Kit page: the voice that was struck last, and how hard. */
  struck: z.object({ voice: z.enum(VOICES), velocity: z.number().min(0).max(1) }).nullable(),
});

export type WallPage = Readonly<z.infer<typeof pageSchema>>;

/** The wall says when it opens and closes, so that nothing is sent to nobody. */
export const wallMessageSchema = z.discriminatedUnion("kind", [
  pageSchema,
  z.object({ kind: z.literal("opened") }),
  z.object({ kind: z.literal("closed") }),
  /** The book window asks which walls are open. */
  z.object({ kind: z.literal("asking") }),
]);

export type WallMessage = z.infer<typeof wallMessageSchema>;
