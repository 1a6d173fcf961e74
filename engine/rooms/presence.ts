/**
 * Question: is somebody in the room still there; and if not, how did they go?
 *
 * Who goes says so. Where a connection breaks, the broker says it, at once or, where it breaks without a sign, only after some
 * 15 seconds; but clocks are asked every two seconds, so silence tells sooner.
 */
import type { Seconds } from "../units/index.ts";
import type { Person } from "./member.ts";

/** Three questions about the clock were not answered, and none was asked. Our choice: of 100 messages five may be lost. */
export const SILENT_SECONDS: Seconds = 6;

/** *left*: by their own word. *broken-off*: the broker says so. *silent*: nothing comes. *here*: our own connection broke. */
export type GoneWhy = "left" | "broken-off" | "silent" | "here";

export type Presence =
  | { readonly kind: "there"; readonly quietSeconds: Seconds }
  | { readonly kind: "gone"; readonly why: GoneWhy; readonly quietSeconds: Seconds };

/**
 * @param person `null` where the room does not know them any more.
 * @param isJoined whether our own connection stands.
 */
export function presenceOf(
  person: Pick<Person, "isHere" | "hasLeft" | "quietSeconds"> | null,
  isJoined: boolean,
): Presence {
  const quietSeconds = person?.quietSeconds ?? Number.POSITIVE_INFINITY;
  const why = goneBy(person, isJoined);
  return why === null ? { kind: "there", quietSeconds } : { kind: "gone", why, quietSeconds };
}

function goneBy(
  person: Pick<Person, "isHere" | "hasLeft" | "quietSeconds"> | null,
  isJoined: boolean,
): GoneWhy | null {
  if (person === null || person.hasLeft) return "left";
  if (!isJoined) return "here";
  if (!person.isHere) return "broken-off";
  return person.quietSeconds >= SILENT_SECONDS ? "silent" : null;
}
