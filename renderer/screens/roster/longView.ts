/** From all that is kept of a student to a page on paper: items by how they stand, what was taken for what, look by look. */
import { confusionTable } from "../../../engine/ear/index.ts";
import {
  byItem,
  type Day,
  evidenceOf,
  evidenceWords,
  inOrder,
  itemName,
} from "../../../engine/memory/index.ts";
import type { HeardBefore } from "../../app/heardEarlier.ts";
import { dayInWords } from "../../out/print/dayWords.ts";
import type { Sheet, TallyPart } from "../../out/print/sheet.ts";
import { confusionPart } from "../back-turned/confusionWords.ts";
import type { StudentEvidence } from "../next-time/nextTimePlace.ts";
import { LOOK_COLUMNS, lookRows, partWords } from "../wall-chart/chartWords.ts";
import type { LooksOfDay } from "../wall-chart/looksEarlier.ts";

export interface LongView {
  readonly nickname: string;
  readonly today: Day;
  readonly evidence: Pick<StudentEvidence, "results" | "ownNames">;
  readonly heard: HeardBefore;
  readonly looks: readonly LooksOfDay[];
}

/** How a thing stood when it was asked last. */
const STATES = [
  ["known", "Held"],
  ["slipped", "Slipped"],
  ["new", "New"],
] as const;

export function longView({ nickname, today, evidence, heard, looks }: LongView): Sheet {
  return {
    kind: "tally",
    of: `${nickname}, so far`,
    nickname,
    day: dayInWords(today),
    under: "What was asked over the lessons, as it stood when it was asked last.",
    parts: [...byState(evidence, today), ...byEar(heard), ...lookByLook(looks)],
  };
}

function byState({ results, ownNames }: LongView["evidence"], today: Day): readonly TallyPart[] {
  const items = [...byItem(results)].map(([item, of]) => {
    const { name, aspect } = itemName(item, ownNames);
    const found = evidenceOf(of);
    const line = {
      key: item,
      name: aspect === "" ? name : `${name}, ${aspect}`,
      remark: found ? evidenceWords(found, today) : "",
    };
    return { line, state: inOrder(of).at(-1)?.outcome };
  });
  return STATES.flatMap(([state, heading]): readonly TallyPart[] => {
    const lines = items.filter((each) => each.state === state).map(({ line }) => line);
    return lines.length === 0 ? [] : [{ kind: "lines", heading, lines }];
  });
}

function byEar({ heard }: HeardBefore): readonly TallyPart[] {
  const rows = confusionTable(heard);
  return rows.length === 0 ? [] : [confusionPart("By ear: taken for what", rows)];
}

/** One table for each part of the chart, the days below each other. */
function lookByLook(all: readonly LooksOfDay[]): readonly TallyPart[] {
  const byPart = new Map<string, (readonly string[])[]>();
  for (const { day, looks } of all) {
    const [first] = looks;
    if (!first) continue;
    const part = partWords(first.settings);
    byPart.set(part, [...(byPart.get(part) ?? []), ...lookRows(looks).map((row) => [day, ...row])]);
  }
  return [...byPart].map(([part, rows]) => ({
    kind: "table",
    heading: `Wall Chart, look by look: ${part}`,
    columns: ["day", ...LOOK_COLUMNS],
    rows,
  }));
}
