/** From a lesson to the page its student takes home. */

import { itemName, signNames } from "../../../engine/memory/index.ts";
import { type ItemResult, localDay, type TakeState } from "../../../engine/session/index.ts";
import { formatMs, formatTempo, formatWholeMs } from "../../charts/index.ts";
import { dayInWords } from "../../out/print/dayWords.ts";
import type { LessonReport, PlayedInLesson } from "../../out/print/lessonReport.ts";
import type { Sheet } from "../../out/print/sheet.ts";
import { namingHere } from "../../session/cardSettings.ts";
import type { OpenLesson } from "./replayDesk.ts";
import { counted, lengthWords, momentWords, takeShort, whenWords, whoWords } from "./replayWords.ts";
import { takesOf } from "./takesOfLesson.ts";

export function lessonSheet(
  { moments, students }: OpenLesson,
  { withRemarks }: { readonly withRemarks: boolean },
): Sheet | null {
  const { began, rounds, remarks } = moments.whole;
  if (!began) return null;
  const day = dayInWords(localDay(began.at, began.zone));
  const lesson: LessonReport = {
    who: whoWords(students),
    day,
    when: [
      whenWords(began).slice(day.length + 2),
      lengthWords(moments.seconds),
      counted(rounds.length, "round"),
    ].join(", "),
    played: playedIn(takesOf(moments.whole)),
    shown: {
      held: namesOf(rounds, "known"),
      slipped: namesOf(rounds, "slipped"),
      met: namesOf(rounds, "new"),
    },
    remarks: withRemarks
      ? remarks.flatMap(({ time, text, flagged }) =>
          text === "" && !flagged ? [] : [{ moment: momentWords(time), text: text || "flagged" }],
        )
      : [],
    isInvented: began.invented === true,
  };
  return { kind: "lesson", lesson };
}

/** One line a groove, in the order they were first played; the last measured take tells how. */
function playedIn(takes: readonly TakeState[]): readonly PlayedInLesson[] {
  const byName = new Map<string, TakeState[]>();
  for (const take of takes) {
    if (take.hitCount === 0) continue;
    const name = takeShort(take);
    byName.set(name, [...(byName.get(name) ?? []), take]);
  }
  return [...byName].map(([name, played]) => {
    const last = played.findLast(({ judgement }) => judgement !== null)?.judgement?.summary;
    const tempo = last?.tempoBpm ? formatTempo(last.tempoBpm) : null;
    return {
      name,
      takes: played.length,
      how: [...(tempo === null ? [] : [tempo]), ...(last?.clicked ? ["with the click"] : [])].join(", "),
      figures: last ? figuresOf(last) : null,
      workOn: last?.workOn?.words ?? null,
    };
  });
}

function figuresOf({ leanMs, spreadMs }: NonNullable<TakeState["judgement"]>["summary"]): string | null {
  if (spreadMs === null) return null;
  const lean = leanMs === null ? [] : [`lean ${formatMs(leanMs, 0)}`];
  return [...lean, `spread ${formatWholeMs(spreadMs)}`].join(", ");
}

/** By its last result in the lesson: what slipped first and held then, held. */
function namesOf(
  rounds: readonly { readonly tally: readonly ItemResult[] }[],
  outcome: ItemResult["outcome"],
): readonly string[] {
  const last = new Map(rounds.flatMap(({ tally }) => tally).map((result) => [result.item, result.outcome]));
  const names = signNames(namingHere());
  return [...last].filter(([, last]) => last === outcome).map(([item]) => itemName(item, names).name);
}
