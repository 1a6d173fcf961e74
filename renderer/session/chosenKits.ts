/** Which MIDI inputs are the first and the second kit, by name, as it was chosen the last time. */
import { z } from "zod";
import type { KeepingPlace } from "./keepingPlace.ts";

const KEPT_AS = "throneside.kits";
const name = z.string().max(200).nullable();
const keptSchema = z.strictObject({ version: z.literal(1), first: name, second: name });

export interface ChosenKits {
  readonly first: string | null;
  readonly second: string | null;
}

/** What was chosen; nothing where it cannot be read, since choosing again costs one press. */
export function readChosenKits(place: KeepingPlace): ChosenKits {
  try {
    const kept = keptSchema.safeParse(JSON.parse(place.getItem(KEPT_AS) ?? "null"));
    if (kept.success) return kept.data;
  } catch {
    // A browser that keeps nothing, or a damaged text: asked again.
  }
  return { first: null, second: null };
}

/** Keeps it where the browser lets it: where it does not, it is asked again. */
export function keepChosenKits(place: KeepingPlace, { first, second }: ChosenKits): void {
  try {
    place.setItem(
      KEPT_AS,
      JSON.stringify({ version: 1, first, second } satisfies z.infer<typeof keptSchema>),
    );
  } catch {
    // The choice holds while the program is open.
  }
}
