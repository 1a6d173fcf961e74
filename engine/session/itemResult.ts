/**
 * What a round shows of one thing a student may know: the evidence that memory is made of.
 */
import { z } from "zod";
import { ITEM_KINDS, shownItemSchema } from "../rounds/index.ts";

export { ITEM_KINDS };

/** Ids are made by the program: letters, digits and a few signs, no spaces. */
export const idSchema = z
  .string()
  .regex(/^[A-Za-z0-9][A-Za-z0-9._/~:-]*$/)
  .max(120);

/** An instant of the world: ISO 8601 in UTC to the millisecond, "2026-03-02T15:30:00.000Z": their texts sort by time. */
export const instantSchema = z.iso.datetime({ precision: 3 });

export type ItemKind = (typeof ITEM_KINDS)[number];

/** What can be known, by its kind and its own id, as rounds show it: "style:shuffle", "rudiment:flam". */
export const itemIdSchema = shownItemSchema;
export type ItemId = z.infer<typeof itemIdSchema>;

/** `known`: it held; `slipped`: met before and missed now; `new`: never met before. */
export const OUTCOMES = ["known", "slipped", "new"] as const;
export type Outcome = (typeof OUTCOMES)[number];

export const itemResultSchema = z
  .object({
    item: itemIdSchema,
    outcome: z.enum(OUTCOMES),
    studentId: idSchema,
    at: instantSchema,
    evidence: z
      .object({
        /** What happened, in a clause for the teacher: "left out the second backbeat". */
        words: z.string().max(400),
        /** The round it happened in, and the take where there was one. */
        roundId: idSchema,
        takeId: idSchema.exactOptional(),
      })
      .readonly(),
  })
  .readonly();
export type ItemResult = z.infer<typeof itemResultSchema>;

/**
 * The id of an item.
 *
 * @example
 * itemId("style", "shuffle") // => "style:shuffle"
 */
export function itemId(kind: ItemKind, own: string): ItemId {
  return `${kind}:${own}`;
}

/**
 * An item's kind and its own id.
 *
 * @example
 * itemParts("style:shuffle") // => { kind: "style", own: "shuffle" }
 */
export function itemParts(item: ItemId): { readonly kind: ItemKind; readonly own: string } {
  const kind = ITEM_KINDS.find((each) => item.startsWith(`${each}:`));
  if (kind === undefined)
    throw new RangeError(`"${item}" names no kind of item; expected one of ${ITEM_KINDS.join(", ")}.`);
  return { kind, own: item.slice(kind.length + 1) };
}
