/** The rounds of one kind that a student played in earlier lessons, as they were left. */
import { type OwnOf, type Play, playOf, type SteppedKind } from "../../engine/rounds/index.ts";
import { lessonState, localDay } from "../../engine/session/index.ts";
import { readLesson, resultsOfStudent, type StudioDatabase } from "../store/index.ts";

/** The latest lessons say how it is now. Our choice: a season of weekly ones; reading them takes a moment. */
const LESSONS_BACK = 12;

export interface EarlierRound<Kind extends SteppedKind> {
  readonly lessonId: string;
  /** The day of its lesson there: `2026-03-02`. */
  readonly day: string;
  readonly play: Play<OwnOf<Kind>>;
}

/**
 * The rounds of the latest lessons, the oldest first.
 *
 * @param item what its tallies are about: `sound`. A lesson without any in the student's results need not be read.
 * @param butOf a lesson that is on: its rounds tell themselves.
 * @throws StoreError
 */
export async function earlierRounds<Kind extends SteppedKind>(
  database: StudioDatabase,
  studentId: string,
  { kind, item, butOf }: { readonly kind: Kind; readonly item: string; readonly butOf?: string | undefined },
): Promise<readonly EarlierRound<Kind>[]> {
  const results = await resultsOfStudent(database, studentId);
  // Ids of lessons sort by time.
  const lessons = [
    ...new Set(results.flatMap((each) => (each.item.startsWith(`${item}:`) ? [each.lessonId] : []))),
  ]
    .filter((id) => id !== butOf)
    .sort()
    .slice(-LESSONS_BACK);
  const rounds: EarlierRound<Kind>[] = [];
  for (const id of lessons) {
    const { events } = await readLesson(database, id);
    const { began, rounds: all } = lessonState(events);
    for (const { round, steps } of all)
      if (round === kind && began)
        rounds.push({
          lessonId: id,
          day: localDay(began.at, began.zone),
          play: playOf(
            kind,
            steps.map(({ step }) => step),
          ),
        });
  }
  return rounds;
}
