/** Takes that can be laid beside the one at the cursor: of the same groove, from this lesson or from another one. */
import type { StoredTake } from "../../../engine/records/index.ts";
import type { LessonState, TakeState, TakeSummary } from "../../../engine/session/index.ts";
import { formatTempo } from "../../charts/figures.ts";
import { dayInWords } from "../../out/print/dayWords.ts";
import { readLesson, type StudioDatabase } from "../../store/index.ts";
import { oneOfEachLesson } from "./grooveMonths.ts";
import { Moments } from "./moments.ts";
import type { TakeAgain, TakesAgain } from "./takeAgain.ts";
import { numberOf, takesOf } from "./takesOfLesson.ts";

export interface OtherTake {
  readonly takeId: string;
  readonly lessonId: string;
  /** "take 2", "the take of 3 November 2025" */
  readonly name: string;
  /** "take 2: 104 a minute, with the click" */
  readonly inShort: string;
  /** Played before the take at the cursor. */
  readonly isEarlier: boolean;
}

/** More takes than these of one groove and one lesson are not offered: the latest are. Our choice. */
const MOST = 8;

/**
 * Those of this lesson first, from the one before this take backwards, then those after it; then one of each other lesson,
 * the latest first.
 *
 * @param months the student's takes of this groove in all lessons, oldest first.
 */
export function otherTakes(
  take: TakeState,
  lesson: LessonState,
  months: readonly StoredTake[],
): readonly OtherTake[] {
  const here = lesson.began?.lessonId;
  const like = takesOf(lesson)
    .filter((other) => other.takeId !== take.takeId && isLike(other, take) && isMeasured(other))
    .slice(-MOST)
    .map((other): OtherTake => {
      const name = `take ${numberOf(lesson, other)}`;
      const inShort = `${name}: ${how(other.judgement?.summary)}`;
      return {
        takeId: other.takeId,
        lessonId: here ?? "",
        name,
        inShort,
        isEarlier: other.from < take.from,
      };
    });
  const at = take.judgement?.summary.at ?? "";
  const elsewhere = oneOfEachLesson(months.filter(({ lessonId }) => lessonId !== here))
    .toReversed()
    .map(
      (other): OtherTake => ({
        takeId: other.takeId,
        lessonId: other.lessonId,
        name: `the take of ${dayInWords(other.day)}`,
        inShort: `${dayInWords(other.day)}: ${how(other)}`,
        isEarlier: other.at < at,
      }),
    );
  const before = like.filter(({ isEarlier }) => isEarlier).toReversed();
  return [...before, ...like.filter(({ isEarlier }) => !isEarlier), ...elsewhere];
}

/** What comes after the choice that is made: the next of them, at last none, then the first again. */
export function nextOther(
  others: readonly OtherTake[],
  chosen: OtherTake | undefined,
): OtherTake | undefined {
  return chosen ? others[others.indexOf(chosen) + 1] : others[0];
}

/**
 * The take, judged again, from its own lesson.
 *
 * @throws StoreError where that lesson cannot be read, Error where the take is not in it, JudgeError where it cannot be
 * thought over.
 */
export async function takeOfLesson(
  { takeId, lessonId }: Pick<OtherTake, "takeId" | "lessonId">,
  { database, takes }: { readonly database: StudioDatabase; readonly takes: TakesAgain },
): Promise<TakeAgain> {
  const { events } = await readLesson(database, lessonId);
  const moments = new Moments(events);
  const take = takesOf(moments.whole).find((each) => each.takeId === takeId);
  if (!take) throw new Error("That take is no longer kept: its lesson was erased, or cannot be read.");
  return takes.of(take, moments);
}

function how(summary: TakeSummary | undefined): string {
  if (!summary) return "";
  const tempo = summary.tempoBpm === null ? "tempo not told" : formatTempo(summary.tempoBpm);
  return `${tempo}, ${summary.clicked ? "with the click" : "no click"}`;
}

function isMeasured({ judgement }: TakeState): boolean {
  const summary = judgement?.summary;
  return summary !== undefined && summary.spreadMs !== null && summary.beats.length > 0;
}

function isLike(other: TakeState, take: TakeState): boolean {
  const id = ({ judgement, called }: TakeState) => called?.id ?? judgement?.summary.groove?.id;
  return id(other) !== undefined && id(other) === id(take);
}
