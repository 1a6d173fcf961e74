/** What a student looked at and named in the Wall Chart over the latest lessons. */
import { type ChartLook, playOf } from "../../../engine/rounds/index.ts";
import { lessonState, localDay } from "../../../engine/session/index.ts";
import { readLesson, resultsOfStudent, type StudioDatabase } from "../../store/index.ts";
import { allLooks } from "./chartWords.ts";

/** As in Back Turned: a season of weekly lessons. */
const LESSONS_BACK = 12;

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
  const results = await resultsOfStudent(database, studentId);
  // Ids of lessons sort by time. Only a look, or a card, asks for the name of a rudiment.
  const lessons = new Set(
    results.flatMap(({ item, lessonId }) => (item.startsWith("rudiment:") ? [lessonId] : [])),
  );
  const found: LooksOfDay[] = [];
  for (const id of [...lessons].sort().slice(-LESSONS_BACK)) {
    const { events } = await readLesson(database, id);
    const { began, rounds } = lessonState(events);
    for (const { round, steps } of rounds) {
      if (round !== "wall-chart" || !began) continue;
      const { own } = playOf(
        "wall-chart",
        steps.map(({ step }) => step),
      );
      for (const looks of allLooks(own))
        if (looks[0]?.by === studentId && !looks[0].ofTeacher)
          found.push({ day: localDay(began.at, began.zone), looks });
    }
  }
  return found;
}
