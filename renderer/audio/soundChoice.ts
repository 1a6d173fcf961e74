/**
 * What is kept of the sound settings on this computer. Not the volume: that starts low each time.
 */
import { z } from "zod";
import type { KeepingPlace } from "../session/kitMapChoice.ts";

export const HEARD_BY = ["speakers", "headphones"] as const;
export type HeardBy = (typeof HEARD_BY)[number];

const choiceSchema = z.strictObject({
  version: z.literal(1),
  heardBy: z.enum(HEARD_BY).nullable(),
  kitIsSilent: z.boolean(),
  noteRead: z.boolean(),
});

export type SoundChoice = Readonly<Omit<z.infer<typeof choiceSchema>, "version">>;

const KEPT_AS = "throneside.sound";
const NOTHING_CHOSEN: SoundChoice = { heardBy: null, kitIsSilent: false, noteRead: false };

/** The kept choice; where there is none, or it cannot be read, nothing counts as chosen and is asked for again. */
export function readSoundChoice(place: KeepingPlace | undefined): SoundChoice {
  const kept = choiceSchema.safeParse(readJson(place));
  if (!kept.success) return NOTHING_CHOSEN;
  const { heardBy, kitIsSilent, noteRead } = kept.data;
  return { heardBy, kitIsSilent, noteRead };
}

/** Keeps the choice; gives a sentence where that could not be done. */
export function keepSoundChoice(place: KeepingPlace | undefined, choice: SoundChoice): string | undefined {
  try {
    place?.setItem(KEPT_AS, JSON.stringify({ version: 1, ...choice }));
    return undefined;
  } catch (error) {
    return `The sound settings hold now, but this browser could not keep them for next time (${String(error)}).`;
  }
}

function readJson(place: KeepingPlace | undefined): unknown {
  try {
    return JSON.parse(place?.getItem(KEPT_AS) ?? "null");
  } catch {
    // Damaged text, or a browser that keeps nothing: both mean that nothing is known, and asking again is harmless.
    return null;
  }
}
