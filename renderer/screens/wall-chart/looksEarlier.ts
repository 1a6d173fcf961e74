/** What a student looked at and named in the Wall Chart over the latest lessons. */
import type { ChartLook } from "../../../engine/rounds/index.ts";
import { earlierRounds } from "../../app/earlierRounds.ts";
import type { StudioDatabase } from "../../store/index.ts";
import { allLooks } from "./chartWords.ts";

/** The looks of one round at one part of the chart. */
export interface LooksOfDay {
  /** `2026-03-02` */
  readonly day: string;
  readonly looks: readonly ChartLook[];
}

/**
 * The oldest first.
 *
 * @throws StoreError
 */
export async function looksEarlier(
  database: StudioDatabase,
  studentId: string,
): Promise<readonly LooksOfDay[]> {
  // Only a look, or a card, asks for the name of a rudiment.
  const rounds = await earlierRounds(database, studentId, { kind: "wall-chart", item: "rudiment" });
  return rounds.flatMap(({ day, play: { own } }) =>
    allLooks(own).flatMap((looks) =>
      looks[0]?.by === studentId && !looks[0].ofTeacher ? [{ day, looks }] : [],
    ),
  );
}
