import { type StudioDatabase, told } from "../../store/index.ts";

/** How much is kept. */
export interface StudioCounts {
  readonly students: number;
  readonly lessons: number;
  readonly takes: number;
  readonly entries: number;
  readonly setAside: number;
}

/** @throws StoreError */
export function studioCounts({
  students,
  lessons,
  takes,
  entries,
  setAside,
}: StudioDatabase): Promise<StudioCounts> {
  return told(async () => ({
    students: await students.count(),
    lessons: await lessons.count(),
    takes: await takes.count(),
    entries: await entries.count(),
    setAside: await setAside.count(),
  }));
}
