/** Puts the invented studio among what is kept; nothing else is touched. */
import { dayNumber, daysAfter, weekdayOf } from "../../../../engine/memory/index.ts";
import { lessonIdAt } from "../../../../engine/records/index.ts";
import { type ItemId, instantOf, localDay } from "../../../../engine/session/index.ts";
import { seededChance } from "../../../../engine/units/index.ts";
import { type StudioDatabase, told, writeEvents } from "../../../store/index.ts";
import { inventLesson } from "./inventLesson.ts";
import { INVENTED_STUDENTS } from "./millrace.ts";

/** Half a year, a lesson a week. */
const WEEKS = 26;

/**
 * Half a year of lessons until last week, on today's day of the week, so that today's desk has something to show. The same
 * day gives the same studio.
 *
 * @param onProgress lessons made, of so many.
 * @throws StoreError
 */
export async function loadDemoStudio(
  database: StudioDatabase,
  { now, zone }: { readonly now: string; readonly zone: string },
  onProgress: (done: number, of: number) => void = () => {},
): Promise<void> {
  const today = localDay(now, zone);
  let done = 0;
  for (const [index, who] of INVENTED_STUDENTS.entries()) {
    const met = new Set<ItemId>();
    const chance = seededChance(7919 * (index + 1) + dayNumber(today));
    for (let number = 0; number < WEEKS; number += 1) {
      const day = daysAfter(today, 7 * (number - WEEKS));
      const at = instantOf(day, who.from, zone);
      const lessonId = lessonIdAt(at, `millrace${index}`);
      const { events, state } = inventLesson(who, { lessonId, at, zone, number, of: WEEKS, chance, met });
      await writeEvents(database, state, events);
      done += 1;
      onProgress(done, WEEKS * INVENTED_STUDENTS.length);
      // The page stays awake between two lessons.
      await new Promise((resolve) => setTimeout(resolve));
    }
    const addedAt = instantOf(daysAfter(today, -7 * WEEKS), who.from, zone);
    const lessonDay = { weekday: weekdayOf(today), from: who.from, minutes: who.minutes };
    await told(() => database.students.put({ ...who.student, addedAt, lessonDay }));
  }
  const ids = INVENTED_STUDENTS.map(({ student }) => student.id);
  await told(() =>
    database.groups.put({
      version: 1,
      id: "millrace-saturday",
      name: "Saturday band (invented)",
      studentIds: ids.slice(1, 3),
      invented: true,
    }),
  );
}
