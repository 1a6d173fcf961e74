/** What a student heard in Back Turned in earlier lessons: where the student stands, what is confused. */
import type { HeardAs, RungAnswer } from "../../engine/ear/index.ts";
import { heardAsBy, rungAnswersOf } from "../../engine/rounds/index.ts";
import type { StudioDatabase } from "../store/index.ts";
import { earlierRounds } from "./earlierRounds.ts";

export interface HeardBefore {
  /** The oldest first. */
  readonly answers: readonly RungAnswer[];
  readonly heard: readonly HeardAs[];
}

export const NOTHING_HEARD: HeardBefore = { answers: [], heard: [] };

/**
 * @param butOf a lesson that is on: its round tells itself.
 * @throws StoreError
 */
export async function heardBefore(
  database: StudioDatabase,
  studentId: string,
  butOf?: string,
): Promise<HeardBefore> {
  const rounds = await earlierRounds(database, studentId, { kind: "back-turned", item: "sound", butOf });
  return {
    answers: rounds.flatMap(({ play: { own } }) => rungAnswersOf(own, studentId)),
    heard: rounds.flatMap(({ play: { own } }) => heardAsBy(own, studentId)),
  };
}
