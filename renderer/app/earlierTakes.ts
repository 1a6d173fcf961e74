/** A student's own earlier takes of the styles, as listening knows them by. */
import type { Hit } from "../../engine/kit/index.ts";
import type { StoredTake } from "../../engine/records/index.ts";
import type { OwnTakes } from "../../engine/rounds/index.ts";
import { hitsOfTake, lessonState } from "../../engine/session/index.ts";
import { readLesson, type StudioDatabase, takesOfStudent } from "../store/index.ts";

/** The latest takes of one style say how it is played now. Our choice, with the next two: a second of reading at most. */
const TAKES_OF_A_STYLE = 2;
const MOST_TAKES = 12;
const LOOKED_THROUGH = 60;
/** From this chance on a take is of the style that was heard, whatever was called; as within a sitting. */
const SURE = 0.9;

/**
 * The latest takes of each style, oldest first.
 *
 * @param butOf a lesson that is on: its takes are in the sitting already.
 * @throws StoreError
 */
export async function earlierTakes(
  database: StudioDatabase,
  studentId: string,
  butOf?: string,
): Promise<readonly OwnTakes[]> {
  const latest = await takesOfStudent(database, studentId, LOOKED_THROUGH);
  const wanted = chosen(latest.filter(({ lessonId }) => lessonId !== butOf));
  const hits = new Map<string, readonly Hit[]>();
  for (const lessonId of new Set(wanted.map(({ take }) => take.lessonId))) {
    const { events } = await readLesson(database, lessonId);
    for (const take of lessonState(events).rounds.flatMap(({ takes }) => takes))
      hits.set(take.takeId, hitsOfTake(events, take));
  }
  const byStyle = new Map<string, (readonly Hit[])[]>();
  for (const { styleId, take } of wanted.toReversed()) {
    const played = hits.get(take.takeId) ?? [];
    if (played.length > 0) byStyle.set(styleId, [...(byStyle.get(styleId) ?? []), played]);
  }
  return [...byStyle].map(([style, takes]) => ({ styleId: style, takes }));
}

/** Newest first. */
function chosen(
  takes: readonly StoredTake[],
): readonly { readonly styleId: string; readonly take: StoredTake }[] {
  const counts = new Map<string, number>();
  const wanted: { readonly styleId: string; readonly take: StoredTake }[] = [];
  for (const take of takes) {
    const { heard, called } = take;
    if (!heard || (heard.id !== called?.id && heard.confidence < SURE)) continue;
    const count = counts.get(heard.id) ?? 0;
    if (count >= TAKES_OF_A_STYLE || wanted.length >= MOST_TAKES) continue;
    counts.set(heard.id, count + 1);
    wanted.push({ styleId: heard.id, take });
  }
  return wanted;
}
