/** What can be spotted: a groove, a fill, the drum part of a tune. */
import { z } from "zod";
import type { ShownItem } from "../frame/play.ts";

export const THING_KINDS = ["groove", "fill", "part"] as const;
export type ThingKind = (typeof THING_KINDS)[number];

export const thingSchema = z
  .object({
    kind: z.enum(THING_KINDS),
    /** Of a style, of a fill of the catalogue, or of an entry of the Shelf. */
    id: z.string().min(1).max(100),
    /** As it was called then: a name on the Shelf may change. */
    name: z.string().min(1).max(200),
  })
  .readonly();
export type Thing = z.infer<typeof thingSchema>;

/** One text for each thing: a fill and a groove may have the same id. */
export function thingKey({ kind, id }: Pick<Thing, "kind" | "id">): string {
  return `${kind}:${id}`;
}

export function isSameThing(one: Thing, other: Thing): boolean {
  return thingKey(one) === thingKey(other);
}

/** What is known of it by who can name it. */
export function nameItem({ kind, id }: Pick<Thing, "kind" | "id">): ShownItem {
  return kind === "fill" ? `fill-name:${id}` : `style-name:${id}`;
}

/** What is known of it by who can play it. */
export function playItem({ kind, id }: Pick<Thing, "kind" | "id">): ShownItem {
  return kind === "fill" ? `fill:${id}` : `style:${id}`;
}
