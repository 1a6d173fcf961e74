/**
 * What the book window sends to the wall view: the same page, in the few things that can be read from two
 * metres. The two windows share no memory, so what comes is checked.
 */
import { z } from "zod";
import { VOICES } from "../../engine/kit/index.ts";

export const WALL_CHANNEL = "throneside-wall";

const ringSchema = z.object({
  grooveId: z.string().nullable(),
  /** Its grid text, where it is a groove of the Shelf, which the other window does not read. */
  shelfGrid: z.string().optional(),
  beats: z.number().positive().nullable(),
  played: z.array(z.object({ voice: z.enum(VOICES), place: z.number(), differs: z.boolean() })),
  /** Where the hand is: a moment of the book's session clock at which a turn began, and a turn's length. */
  turn: z
    .object({ fromSeconds: z.number(), seconds: z.number().positive(), beats: z.number().positive() })
    .nullable(),
  label: z.string(),
});

/**
 * What a round shows on the wall besides words, one shape a round; drawn by `roundSheets.tsx`. What is still to be answered
 * is not in it.
 */
export const roundSheetSchema = z.discriminatedUnion("round", [
  z.object({
    round: z.literal("back-turned"),
    /** What may be said, in big type. */
    names: z.array(z.string()),
    /** What has been struck or named so far. */
    given: z.array(z.string()),
  }),
  z.object({
    round: z.literal("card-table"),
    /** The card that lies open: its picture is drawn from it. */
    card: z.string(),
    /** Names to choose from, while an answer is waited for. */
    names: z.array(z.string()),
  }),
  z.object({
    round: z.literal("wall-chart"),
    /** Rudiments that are shown, by id: none while they are to be named. */
    entries: z.array(z.string()),
    /** Names that were named so far. */
    named: z.array(z.string()),
  }),
  z.object({
    round: z.literal("trading"),
    /** Both players' rings, the first one's first. */
    rings: z.array(
      z.object({
        name: z.string(),
        isOn: z.boolean(),
        played: z.array(z.object({ voice: z.enum(VOICES), place: z.number(), differs: z.boolean() })),
      }),
    ),
    /** A bar of the pulse on the book's session clock; `null` until it is heard. */
    bar: z
      .object({ fromSeconds: z.number(), seconds: z.number().positive(), beats: z.number().positive() })
      .nullable(),
  }),
]);
export type RoundSheet = Readonly<z.infer<typeof roundSheetSchema>>;

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
  /** What a round shows besides. */
  sheet: roundSheetSchema.nullable(),
});

export type WallPage = Readonly<z.infer<typeof pageSchema>>;
/** What the wall shows of a page; the sender adds its clock. */
export type WallContent = Omit<WallPage, "kind" | "timeOriginMs">;

/** The wall says when it opens and closes, so that nothing is sent to nobody. */
export const wallMessageSchema = z.discriminatedUnion("kind", [
  pageSchema,
  z.object({ kind: z.literal("opened") }),
  z.object({ kind: z.literal("closed") }),
  /** The book window asks which walls are open. */
  z.object({ kind: z.literal("asking") }),
]);

export type WallMessage = z.infer<typeof wallMessageSchema>;
