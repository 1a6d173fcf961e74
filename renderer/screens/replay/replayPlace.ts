/**
 * The address of a page of Replay, and of a moment within a lesson: "#/replay/LESSON/SECONDS". A link to a moment can be
 * kept, sent within the studio, and opened again.
 */
import type { Seconds } from "../../../engine/units/index.ts";

export type ReplayPlace =
  /** To choose from: a student's lessons, or, without one, everybody's. */
  | { readonly kind: "lessons"; readonly studentId: string | null }
  | { readonly kind: "lesson"; readonly lessonId: string; readonly seconds: Seconds | null };

const ALL_LESSONS: ReplayPlace = { kind: "lessons", studentId: null };
const STUDENT = "student";

/**
 * The place a hash names; what cannot be read is left out, never guessed.
 *
 * @example
 * replayPlaceOf("#/replay/2026-03-02T15:30:00.000Z~k3f9/61.5")
 * // => { kind: "lesson", lessonId: "2026-03-02T15:30:00.000Z~k3f9", seconds: 61.5 }
 */
export function replayPlaceOf(hash: string): ReplayPlace {
  const [page, first, second] = hash.replace(/^#\/?/, "").split("/").map(decoded);
  if (page !== "replay" || !first) return ALL_LESSONS;
  if (first === STUDENT) return { kind: "lessons", studentId: second || null };
  const seconds = second ? Number(second) : Number.NaN;
  return { kind: "lesson", lessonId: first, seconds: Number.isFinite(seconds) ? Math.max(0, seconds) : null };
}

/** The link to a lesson, or to a moment of it, to the millisecond. */
export function lessonHref(lessonId: string, seconds?: Seconds): string {
  const moment = seconds === undefined ? "" : `/${Math.round(seconds * 1000) / 1000}`;
  return `#/replay/${encodeURIComponent(lessonId)}${moment}`;
}

/** The link to a student's lessons. */
export function lessonsHref(studentId: string | null): string {
  return studentId === null ? "#/replay" : `#/replay/${STUDENT}/${encodeURIComponent(studentId)}`;
}

/** A hash typed by hand may hold a per cent sign that means nothing. */
function decoded(part: string): string {
  try {
    return decodeURIComponent(part);
  } catch (error) {
    if (error instanceof URIError) return part;
    throw error;
  }
}
