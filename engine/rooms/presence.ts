/**
 * Question: is somebody in the room still there; and if not, how did they go?
 *
 * Who goes says so. Where a connection breaks, the broker says it, at once or, where it breaks without a sign, only after some
 * 15 seconds; but clocks are asked every two seconds, so silence tells sooner.
 */
import type { Seconds } from "../units/index.ts";
import type { PersonId } from "./message.ts";
import type { Person } from "./other.ts";

/** Three questions about the clock were not answered, and none was asked. Our choice: of 100 messages five may be lost. */
export const SILENT_SECONDS: Seconds = 6;

/**
 * *left*: by their own word. *anew*: their program went, and was opened again. *broken-off*: the broker says so. *silent*: nothing
 * comes. *here*: our own connection broke. Whoever left, or came anew, does not go on with what was being played.
 */
export type GoneWhy = "left" | "anew" | "broken-off" | "silent" | "here";

export type Presence =
  | { readonly kind: "there"; readonly quietSeconds: Seconds }
  | { readonly kind: "gone"; readonly why: GoneWhy; readonly quietSeconds: Seconds };

/**
 * @param id of somebody; where the room does not know them any more, they have left.
 * @param people all who are, or were, in the room.
 * @param isJoined whether our own connection stands.
 */
export function presenceOf(id: PersonId | undefined, people: readonly Person[], isJoined: boolean): Presence {
  const person = people.find((each) => each.id === id);
  const quietSeconds = person?.quietSeconds ?? Number.POSITIVE_INFINITY;
  const why = goneBy(person, people, isJoined);
  return why === null ? { kind: "there", quietSeconds } : { kind: "gone", why, quietSeconds };
}

function goneBy(person: Person | undefined, people: readonly Person[], isJoined: boolean): GoneWhy | null {
  if (!person || person.hasLeft) return "left";
  if (!isJoined) return "here";
  const isSilent = person.quietSeconds >= SILENT_SECONDS;
  if (person.isHere && !isSilent) return null;
  if (people.some((each) => isAnew(each, person))) return "anew";
  return person.isHere ? "silent" : "broken-off";
}

/** Each time a program joins it has another id: the name tells who it is. */
function isAnew(one: Person, { id, name, role }: Person): boolean {
  return one.id !== id && one.isHere && one.name === name && one.role === role;
}
