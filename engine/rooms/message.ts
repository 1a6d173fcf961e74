/**
 * What passes between the programs in one room, as both ends check it. Every message says its version first, so that a
 * program that speaks another one can be told by name and not taken for noise. Times are in seconds on the *sender's*
 * own clock, which need not agree with anybody else's: `clockExchange.ts` finds how far they are apart.
 */
import { z } from "zod";
import { tradingSetSchema } from "../rounds/index.ts";
import { hitSchema } from "../session/index.ts";

/** Of the messages. Programs of two versions do not play together. */
export const ROOM_VERSION = 1;

/** Bytes of one message at most. Our choice: {@link MOST_HITS_AT_ONCE} strikes fit in with room to spare. */
export const MOST_MESSAGE_BYTES = 64 * 1024;

/** Strikes in one message at most: some 24 kB. */
export const MOST_HITS_AT_ONCE = 200;

/** Made anew each time a program joins a room, so that two people of one name stay two. */
export const personIdSchema = z.string().regex(/^[A-Za-z0-9-]{8,64}$/);
export type PersonId = z.infer<typeof personIdSchema>;

const personName = z.string().trim().min(1).max(60);
const seconds = z.number();
const sequence = z.int().min(0);

/**
 * Who may be in a room: one who trades and hears the others, one who only watches, the desk of a kit lab, and a kit of the
 * lab, which hears the desk and not the others.
 */
export const ROLES = ["player", "watcher", "desk", "kit"] as const;
export type Role = (typeof ROLES)[number];

/** Who came in, kept by the broker for those who come later. */
const hello = z.object({
  kind: z.literal("hello"),
  id: personIdSchema,
  name: personName,
  /** The version of the program, for people. */
  program: z.string().min(1).max(40),
  role: z.enum(ROLES),
  /** The number that their next strike will have. */
  sequence,
});

/** Who goes by their own word; where a connection only breaks, the broker says that they are gone without it. */
const goodbye = z.object({ kind: z.literal("goodbye") });

/** Strikes in the order they were struck; the first one's number, counted from 0 since the program joined. */
const hits = z.object({
  kind: z.literal("hits"),
  from: sequence,
  hits: z.array(hitSchema).min(1).max(MOST_HITS_AT_ONCE).readonly(),
});

/** How many strikes were sent so far: whoever has fewer asks again. */
const standing = z.object({ kind: z.literal("standing"), upTo: sequence });

/** Asks for strikes `from` (included) to `upTo` (not) once more. */
const again = z.object({ kind: z.literal("again"), from: sequence, upTo: sequence });

/** The answer to *again* where the sender keeps them no longer: what comes before `upTo` is lost. */
const forgotten = z.object({ kind: z.literal("forgotten"), upTo: sequence });

/** RFC 5905: T1, when the question left, on the clock of the one who asks. */
const clockQuestion = z.object({ kind: z.literal("clock-question"), from: personIdSchema, t1: seconds });

/** RFC 5905: T2, when it came, and T3, when the answer left, on the clock of the one who answers. */
const clockAnswer = z.object({
  kind: z.literal("clock-answer"),
  from: personIdSchema,
  t1: seconds,
  t2: seconds,
  t3: seconds,
});

/** The desk calls a style to all; `null`: whatever they like. */
const call = z.object({
  kind: z.literal("call"),
  styleId: z.string().min(1).max(100).nullable(),
});

/**
 * In Trading: a form that begins at both places. Whose turn it is follows from it and the time (`engine/trading`): nothing more
 * need be said until it is over.
 */
const form = z.object({
  kind: z.literal("form"),
  from: personIdSchema,
  set: tradingSetSchema,
  /** Whether the one who says so calls. */
  calls: z.boolean(),
  /** Its first bar line there. */
  beginsAt: seconds,
  /** At either place the other's strokes are sounded so much later. */
  delaySeconds: z.number().min(0).max(60),
});

/** In Trading: a form was left at the place that says so. `form`: as it was begun, by whom and when there. */
const formLeft = z.object({
  kind: z.literal("form-left"),
  from: personIdSchema,
  form: z.object({ from: personIdSchema, beginsAt: seconds }),
});

/** What a kit's own program says of what is played there, for the desk. */
export const heardSummarySchema = z.object({
  /** Of the style that is heard; `null`: none that is known. */
  styleId: z.string().min(1).max(100).nullable(),
  styleName: z.string().min(1).max(200).nullable(),
  /** Chance from 0 to 1 that it is this one (or that it is none). */
  confidence: z.number().min(0).max(1),
  tempoBpm: z.number().positive().max(1000).nullable(),
  /** Of the last take judged: negative ahead, positive behind; `null` before there is one. */
  leanMs: z.number().nullable(),
  spreadMs: z.number().min(0).nullable(),
  /** Share of the strokes on the voice that is written. */
  voiceAccuracy: z.number().min(0).max(1).nullable(),
});
export type HeardSummary = Readonly<z.infer<typeof heardSummarySchema>>;

const heard = z.object({ kind: z.literal("heard"), summary: heardSummarySchema.readonly() });

const messageSchema = z.discriminatedUnion("kind", [
  hello,
  goodbye,
  hits,
  standing,
  again,
  forgotten,
  clockQuestion,
  clockAnswer,
  call,
  form,
  formLeft,
  heard,
]);

export type RoomMessage = Readonly<z.infer<typeof messageSchema>>;
export type MessageOf<Kind extends RoomMessage["kind"]> = Extract<RoomMessage, { readonly kind: Kind }>;

const versioned = z.looseObject({ version: z.int().min(0), program: z.string().max(40).exactOptional() });

/** What became of a message that came. `reason` is a clause for people. */
export type ReadMessage =
  | { readonly read: "message"; readonly message: RoomMessage }
  | { readonly read: "other version"; readonly version: number; readonly program: string | null }
  | { readonly read: "not understood"; readonly reason: string };

/** A message as text. */
export function writeMessage(message: RoomMessage): string {
  return JSON.stringify({ version: ROOM_VERSION, ...message });
}

/** Reads a message that came from outside: nothing of it is believed before it is checked. */
export function readMessage(text: string): ReadMessage {
  if (text.length > MOST_MESSAGE_BYTES)
    return { read: "not understood", reason: `it is longer than ${MOST_MESSAGE_BYTES / 1024} kB` };
  const said = parsed(text);
  const envelope = versioned.safeParse(said);
  if (!envelope.success) return { read: "not understood", reason: "it is no message of a room" };
  const { version, program } = envelope.data;
  if (version !== ROOM_VERSION) return { read: "other version", version, program: program ?? null };
  const message = messageSchema.safeParse(said);
  if (message.success) return { read: "message", message: message.data };
  return { read: "not understood", reason: z.prettifyError(message.error) };
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch (error) {
    if (error instanceof SyntaxError) return undefined;
    throw error;
  }
}
