/** The same groove over the months: one take of each lesson, so that a lesson with many takes does not crowd out the others. */

import type { Voice } from "../../../engine/kit/index.ts";
import type { StoredTake } from "../../../engine/records/index.ts";
import type { TakeSummary } from "../../../engine/session/index.ts";
import type { Milliseconds } from "../../../engine/units/index.ts";
import { inRingOrder } from "../../charts/index.ts";

/** So many small charts fill the sheet and can still be compared. Our choice. */
export const MOST_LESSONS = 12;

/**
 * The last measured take of each lesson, oldest first; of more than {@link MOST_LESSONS} lessons, evenly spread ones, the
 * first and the last among them.
 *
 * @param takes oldest first.
 */
export function oneOfEachLesson(takes: readonly StoredTake[]): readonly StoredTake[] {
  const byLesson = new Map<string, StoredTake>();
  for (const take of takes)
    if (take.spreadMs !== null && take.beats.length > 0) byLesson.set(take.lessonId, take);
  const all = [...byLesson.values()];
  if (all.length <= MOST_LESSONS) return all;
  return Array.from({ length: MOST_LESSONS }, (_, index) => {
    const take = all[Math.round((index * (all.length - 1)) / (MOST_LESSONS - 1))];
    return take ? [take] : [];
  }).flat();
}

/** How far the common scale reaches either way: the furthest lean with its spread, to the next ten milliseconds. */
export function commonEdgeMs(takes: readonly TakeSummary[]): Milliseconds {
  const furthest = takes
    .flatMap(({ beats }) => beats)
    .reduce((most, { leanMs, spreadMs }) => Math.max(most, Math.abs(leanMs ?? 0) + (spreadMs ?? 0)), 0);
  return Math.max(20, Math.ceil(furthest / 10) * 10);
}

/** All voices of these takes, in the order of the ring. */
export function voicesOf(takes: readonly TakeSummary[]): readonly Voice[] {
  return inRingOrder(new Set(takes.flatMap(({ voices }) => voices.map(({ voice }) => voice))));
}

/** What was made of a voice: "15 of 16", "12 of 16, 3 on another sound, 1 left out", "4 added". */
export function voiceShort(take: TakeSummary, voice: Voice): string {
  const found = take.voices.find((each) => each.voice === voice);
  if (!found) return "not written";
  const { written, asWritten, otherSound, leftOut, added } = found;
  return [
    ...(written > 0 ? [`${asWritten} of ${written}`] : []),
    ...(otherSound > 0 ? [`${otherSound} on another sound`] : []),
    ...(leftOut > 0 ? [`${leftOut} left out`] : []),
    ...(added > 0 ? [`${added} added`] : []),
  ].join(", ");
}
