/** Question: what do the memories of the students at the table say about the deck? */
import {
  type ItemId,
  inOrder,
  lessonAhead,
  type NextTimeList,
  nextTimeList,
} from "../../../engine/memory/index.ts";
import type { PlayerId } from "../../../engine/rounds/index.ts";
import { localDay } from "../../../engine/session/index.ts";
import type { StudioDatabase } from "../../store/index.ts";
import { inStudio } from "../next-time/nextTimePlace.ts";

export interface Remembered {
  readonly list: Pick<NextTimeList, "refresh" | "new"> | null;
  readonly met: readonly ItemId[];
}

export const NOTHING_REMEMBERED: Remembered = { list: null, met: [] };

/**
 * What is due and what was met, by any of the players.
 *
 * @throws StoreError
 */
export async function remembered(
  database: StudioDatabase,
  players: readonly PlayerId[],
): Promise<Remembered> {
  if (players.length === 0) return NOTHING_REMEMBERED;
  const place = inStudio(database);
  const [students, retention] = await Promise.all([place.students(), place.retention()]);
  const today = localDay(new Date().toISOString(), Intl.DateTimeFormat().resolvedOptions().timeZone);
  const each = await Promise.all(
    students
      .filter(({ id }) => players.includes(id))
      .map(async (student) => {
        const { results, changes } = await place.evidenceOf(student);
        const lastHeld = inOrder(results).at(-1)?.day ?? null;
        const lessonDay = lessonAhead(today, student.lessonDay?.weekday, lastHeld);
        return { list: nextTimeList({ results, changes, lessonDay, retention }), results };
      }),
  );
  return {
    list: {
      refresh: each.flatMap(({ list }) => list.refresh),
      new: each.flatMap(({ list }) => list.new),
    },
    met: [...new Set(each.flatMap(({ results }) => results.map(({ item }) => item)))],
  };
}
