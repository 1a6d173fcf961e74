import {
  isCalled,
  type Play,
  type PlayerId,
  playerInTurn,
  type SayAndStrike,
} from "../../../engine/rounds/index.ts";

/** Whose examples the ear goes by where nobody in particular speaks. */
export const TEACHERS_VOICE = "teacher";
/** The same where it is a student who speaks. */
const STUDENTS_VOICE = "student";

/**
 * Whose voice the microphone hears now.
 *
 * @param answerer whose answer is waited for next.
 */
export function speakerNow(play: Play<SayAndStrike>, answerer: PlayerId | null): string {
  const { call, roles } = play.own;
  if (roles === "student-strikes") return TEACHERS_VOICE;
  return (call && isCalled(call) ? answerer : playerInTurn(play)) ?? STUDENTS_VOICE;
}
