/** A lesson without one of its students: what that one played, and what was said of it, is left out. */
import type { SessionEvent } from "../../../engine/session/index.ts";

/** What stands where a name stood. */
export const SOMEBODY = "somebody";

/**
 * The events that are left, in order; their numbers stay, so that there are gaps between them.
 *
 * @param hideName takes the student's name out of a text.
 */
export function withoutStudent(
  events: readonly SessionEvent[],
  studentId: string,
  hideName: (text: string) => string = (text) => text,
): readonly SessionEvent[] {
  const began = events.find((event) => event.kind === "lesson-began");
  const lanes = new Set(
    (began?.lanes ?? []).flatMap((lane, index) => (lane.studentId === studentId ? [index] : [])),
  );
  const takes = new Set(
    events.flatMap((event) =>
      event.kind === "take-began" && event.studentId === studentId ? [event.takeId] : [],
    ),
  );
  const isOther = (id: string): boolean => id !== studentId;
  return events.flatMap((event): readonly SessionEvent[] => {
    switch (event.kind) {
      case "hit":
        return lanes.has(event.lane) ? [] : [event];
      case "take-began":
      case "take-ended":
        return takes.has(event.takeId) ? [] : [event];
      case "judgement":
        return takes.has(event.summary.takeId) || event.summary.studentId === studentId ? [] : [event];
      case "lesson-began":
        return [
          {
            ...event,
            studentIds: event.studentIds.filter(isOther),
            lanes: event.lanes.map((lane) =>
              lane.studentId === studentId ? { ...lane, studentId: null } : lane,
            ),
          },
        ];
      case "round-began":
        return [{ ...event, studentIds: event.studentIds.filter(isOther) }];
      case "round-ended":
        return [{ ...event, tally: event.tally.filter((result) => result.studentId !== studentId) }];
      case "remark":
        return [{ ...event, text: hideName(event.text) }];
      default:
        return [event];
    }
  });
}

/**
 * Takes a name out of texts where it stands as a word of its own.
 *
 * @example
 * nameHider("Bram")("Bram and Bramble") // => "somebody and Bramble"
 */
export function nameHider(name: string): (text: string) => string {
  const literal = name.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");
  const word = new RegExp(`(?<![\\p{L}\\p{N}])${literal}(?![\\p{L}\\p{N}])`, "giu");
  return (text) => text.replace(word, SOMEBODY);
}
