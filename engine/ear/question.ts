/**
 * A question for the ear: one moment after the other, at each of them one surface or two at once; and an answer to it.
 */
import { z } from "zod";
import { SURFACES, type Surface, surfaceName } from "./surface.ts";

export const TOUCHES = ["loud", "soft"] as const;
export type Touch = (typeof TOUCHES)[number];

/** More than these are not asked at once. */
export const MOST_MOMENTS = 8;

export const soundedSchema = z
  .object({
    surface: z.enum(SURFACES),
    /** Only where loud or soft is asked. */
    touch: z.enum(TOUCHES).exactOptional(),
  })
  .readonly();
export type Sounded = z.infer<typeof soundedSchema>;

/** What sounds at one moment. */
export const momentSchema = z.array(soundedSchema).min(1).max(2).readonly();
export type Moment = z.infer<typeof momentSchema>;

export const momentsSchema = z.array(momentSchema).min(1).max(MOST_MOMENTS).readonly();
export type Moments = z.infer<typeof momentsSchema>;

/** Whether the two are of the same surfaces, whichever is named first. A touch counts where it was asked. */
export function isSameMoment(asked: Moment, answered: Moment | undefined): boolean {
  if (!answered || asked.length !== answered.length) return false;
  const left = [...answered];
  return asked.every(({ surface, touch }) => {
    const found = left.findIndex(
      (each) => each.surface === surface && (touch === undefined || each.touch === touch),
    );
    if (found < 0) return false;
    left.splice(found, 1);
    return true;
  });
}

/** Whether an answer is right: as many moments, and each the same. */
export function isRight(asked: Moments, answered: Moments): boolean {
  return (
    asked.length === answered.length && asked.every((moment, place) => isSameMoment(moment, answered[place]))
  );
}

/** In words: "snare, then kick and crash left together". */
export function momentsWords(moments: Moments): string {
  return moments.map(momentWords).join(", then ");
}

function momentWords(moment: Moment): string {
  const names = moment.map(({ surface, touch }) =>
    touch === undefined ? surfaceName(surface) : `${touch} ${surfaceName(surface)}`,
  );
  return names.length > 1 ? `${names.join(" and ")} together` : (names[0] ?? "");
}

/** The surfaces of a question, each as often as it sounds. */
export function surfacesOf(moments: Moments): readonly Surface[] {
  return moments.flatMap((moment) => moment.map(({ surface }) => surface));
}
