/** How it has gone over the months: small charts of one scale, each skill and each item; counts of what was heard, no mark. */
import { useState } from "react";
import {
  type ItemId,
  type MonthFigures,
  monthWords,
  type OwnNames,
  type Progress,
  progressByItem,
  progressBySkill,
  type Result,
  SKILLS,
} from "../../../engine/memory/index.ts";
import { lessonSpan } from "../../charts/lessonSpan.ts";
import { monthName } from "../../charts/monthName.ts";
import { countScale, OutcomeKey, OutcomesByLesson } from "../../charts/OutcomesByLesson.tsx";
import { WideTable } from "../../charts/WideTable.tsx";
import { Button } from "../../theme/index.ts";
import { fullName } from "./listWords.ts";
import styles from "./NextTime.module.css";

/** As many as fit beside one another; half a year. */
const MONTHS_SHOWN = 6;
/** Items charted at first, and with each press for more: three rows of two. Our choice. */
const ITEMS_AT_A_TIME = 6;

/** What is looked at over the months, by its name. */
interface Looked {
  readonly key: string;
  readonly name: string;
  readonly progress: Progress;
}

export interface OverTheMonthsProps {
  readonly results: readonly Result[];
  /** The item in focus: it comes first. */
  readonly item: ItemId | null;
  /** The items of the list, in its order. */
  readonly listed: readonly ItemId[];
  readonly ownNames: OwnNames;
}

export function OverTheMonths({ results, item, listed, ownNames }: OverTheMonthsProps) {
  const skills = [...progressBySkill(results)].map(([skill, progress]) => ({
    key: skill,
    name: SKILLS[skill],
    progress,
  }));
  const byItem = progressByItem(results);
  const items = [...new Set([...(item === null ? [] : [item]), ...listed])].flatMap((each) => {
    const progress = byItem.get(each);
    return progress ? [{ key: each, name: fullName(each, ownNames), progress }] : [];
  });
  const inFocus = items.filter(({ key }) => key === item);
  if (skills.length === 0 && items.length === 0) return null;
  return (
    <section className={styles.months}>
      <h2>Over the months</h2>
      <MonthTable rows={[...inFocus, ...skills]} />
      <OutcomeKey />
      <h3>Each skill</h3>
      <Charts all={skills} />
      {items.length > 0 && <EachItem items={items} />}
    </section>
  );
}

function EachItem({ items }: { readonly items: readonly Looked[] }) {
  const [shown, setShown] = useState(ITEMS_AT_A_TIME);
  const left = items.length - shown;
  return (
    <>
      <h3>Each item of the list</h3>
      <Charts all={items.slice(0, shown)} />
      {left > 0 && (
        <Button weight="quiet" onPress={() => setShown(shown + ITEMS_AT_A_TIME)}>
          {`Show ${Math.min(left, ITEMS_AT_A_TIME)} more of ${left}`}
        </Button>
      )}
    </>
  );
}

/** Charts beside one another, on one scale and over the same months. */
function Charts({ all }: { readonly all: readonly Looked[] }) {
  const lessons = all.flatMap(({ progress }) => progress.lessons);
  const span = lessonSpan(lessons.map(({ day }) => day));
  if (!span) return null;
  const scale = countScale(lessons);
  return (
    <ul className={styles.charts}>
      {all.map(({ key, name, progress }) => (
        <li key={key} className={styles.charted}>
          <OutcomesByLesson name={name} lessons={progress.lessons} span={span} scale={scale} />
        </li>
      ))}
    </ul>
  );
}

function MonthTable({ rows }: { readonly rows: readonly Looked[] }) {
  const months = monthsOf(rows.map(({ progress }) => progress));
  return (
    <WideTable label="Over the months">
      <table>
        <thead>
          <tr>
            <th scope="col">what</th>
            {months.map((month) => (
              <th key={month} scope="col">
                {monthName(month)}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map(({ key, name, progress }) => (
            <tr key={key}>
              <th scope="row">{name}</th>
              {months.map((month) => (
                <td key={month}>{monthWords(figuresOf(progress, month))}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </WideTable>
  );
}

/** The latest months of all rows, in order. */
function monthsOf(rows: readonly Progress[]): readonly string[] {
  const all = new Set(rows.flatMap(({ months }) => months.map(({ month }) => month)));
  return [...all].sort().slice(-MONTHS_SHOWN);
}

function figuresOf({ months }: Progress, month: string): MonthFigures {
  return months.find((each) => each.month === month) ?? { month, known: 0, slipped: 0, new: 0 };
}
