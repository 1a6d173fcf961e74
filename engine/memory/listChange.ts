/**
 * What the teacher changes on the Next Time list, as events: they lie over the list that is derived from results, and
 * each can be taken back.
 */
import { z } from "zod";
import { idSchema, instantSchema } from "../session/index.ts";
import { compareInstants, daySchema } from "./day.ts";
import { type ItemId, memoryItemSchema } from "./item.ts";

/** The two parts of the list. */
export const SECTIONS = ["refresh", "new"] as const;
export type Section = (typeof SECTIONS)[number];

const change = z.object({
  version: z.literal(1),
  id: idSchema,
  studentId: idSchema,
  at: instantSchema,
  /** The day it was made, in the studio's own zone. */
  day: daySchema,
});

export const listChangeSchema = z.discriminatedUnion("kind", [
  change.extend({
    kind: z.literal("added"),
    item: memoryItemSchema,
    /** What it is called, where the stock has no name for it: the teacher's own words. */
    words: z.string().min(1).max(200).nullable(),
    section: z.enum(SECTIONS),
  }),
  change.extend({ kind: z.literal("crossed-off"), item: memoryItemSchema }),
  /** Put before another item, or at the end of a section. */
  change.extend({
    kind: z.literal("moved"),
    item: memoryItemSchema,
    section: z.enum(SECTIONS),
    before: memoryItemSchema.nullable(),
  }),
  /** Takes back a change; of an `undone`, does it again. */
  change.extend({ kind: z.literal("undone"), changeId: idSchema }),
]);

export type ListChange = Readonly<z.infer<typeof listChangeSchema>>;
/** A change that says something about an item. */
export type ItemChange = Exclude<ListChange, { readonly kind: "undone" }>;

/** Changes in the order they were made. */
export function changesInOrder(changes: readonly ListChange[]): readonly ListChange[] {
  return [...changes].sort((a, b) => compareInstants(a.at, b.at) || (a.id < b.id ? -1 : a.id > b.id ? 1 : 0));
}

/**
 * The changes that hold, in order: those that no undoing that holds takes back. By what undoes what, not by the clock, which
 * may have been set back in between.
 */
export function changesInForce(changes: readonly ListChange[]): readonly ItemChange[] {
  const undoings = new Map<string, ListChange[]>();
  for (const each of changes)
    if (each.kind === "undone") undoings.set(each.changeId, [...(undoings.get(each.changeId) ?? []), each]);
  const told = new Map<string, boolean>();
  const holds = ({ id }: ListChange): boolean => {
    const before = told.get(id);
    if (before !== undefined) return before;
    // Should two undoings take back each other, which nobody can make, the first asked about holds.
    told.set(id, true);
    const held = !(undoings.get(id) ?? []).some(holds);
    told.set(id, held);
    return held;
  };
  return changesInOrder(changes).filter((each): each is ItemChange => each.kind !== "undone" && holds(each));
}

/** The change that undo would take back, or `undefined` when there is none. */
export function changeToUndo(changes: readonly ListChange[]): ItemChange | undefined {
  return changesInForce(changes).at(-1);
}

/** The crossing-off of an item that holds, or `undefined`: undo that to put the item back where it was. */
export function crossingOff(changes: readonly ListChange[], item: ItemId): ItemChange | undefined {
  return changesInForce(changes).findLast((each) => each.kind === "crossed-off" && each.item === item);
}
