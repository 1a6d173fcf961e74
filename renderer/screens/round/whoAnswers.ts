import type { PlayerId } from "../../../engine/rounds/index.ts";

/**
 * Whose answer is waited for next: who was chosen, or the first of those who have not answered; `null` for the teacher, or
 * nobody in particular.
 */
export function whoAnswers(
  still: readonly (PlayerId | null)[],
  chosen: PlayerId | undefined,
): PlayerId | null {
  return chosen !== undefined && still.includes(chosen) ? chosen : (still[0] ?? null);
}
