/** The words of the Wall Chart. */
import {
  type ChartLook,
  type ChartSettings,
  type ChartTask,
  chartList,
  chartName,
  curveOf,
  looksAt,
  orderOf,
  type WallChart,
} from "../../../engine/rounds/index.ts";
import type { Seconds } from "../../../engine/units/index.ts";

export const TASK_NAMES: Readonly<Record<ChartTask, string>> = {
  names: "Name as many as you can",
  order: "Name them in order",
  families: "The families only",
  said: "The hands, said or chosen",
  played: "The hands, played on two pads",
};

export function lookWords(seconds: Seconds): string {
  const whole = Math.round(seconds);
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, "0")}`;
}

/** The looks that are over now, each with those before it of the same player at the same part. */
export function looksTold(own: WallChart): readonly (readonly ChartLook[])[] {
  if (own.stage.at !== "told") return [];
  const last = own.past.at(-1);
  if (last?.kind !== "look") return [];
  const { settings, ofTeacher } = last.look;
  return own.stage.of.map((by) => looksAt(own, settings, by, ofTeacher));
}

/** All looks of a round: those of one player at one part of the chart together, in the order they began. */
export function allLooks(own: WallChart): readonly (readonly ChartLook[])[] {
  const series = own.past.flatMap((each) => {
    if (each.kind !== "look") return [];
    const { settings, by, ofTeacher } = each.look;
    return [looksAt(own, settings, by, ofTeacher)];
  });
  // A series is found once for each of its looks.
  return series.filter(
    ([first], at) => series.findIndex(([other]) => other === first) === at && first !== undefined,
  );
}

/** What the last look gained, in a sentence or two. */
export function gainWords(looks: readonly ChartLook[]): readonly string[] {
  const figures = curveOf(looks).at(-1);
  const look = looks.at(-1);
  if (!figures || !look) return [];
  const of = chartList(look.settings).length;
  const named = `${figures.count} of ${of} named.`;
  if (looks.length === 1) return [named];
  const gained = figures.gained.length;
  const more =
    gained === 0
      ? "None that was not named before."
      : `${gained} more than before: ${namesOf(figures.gained)}.`;
  const gone = figures.gone.length === 0 ? [] : [`Not named again: ${namesOf(figures.gone)}.`];
  return [named, more, ...gone];
}

/** The places that slipped, where they were to be named in order. */
export function slipWords(look: ChartLook): readonly string[] {
  if (look.settings.task !== "order") return [];
  const { moved, leftOut } = orderOf(look);
  const list = chartList(look.settings);
  const slips = moved.map(({ id, at, belongsAt }) => {
    const before = list[belongsAt - 2];
    const place = before === undefined ? "it is the first" : `it comes after ${chartName(before)}`;
    return `${chartName(id)}, named at place ${at}: ${place}.`;
  });
  if (leftOut.length === 0 || leftOut.length === list.length) return slips;
  return [...slips, `Left out: ${namesOf(leftOut)}.`];
}

export function namesOf(entries: readonly string[]): string {
  return entries.map(chartName).join(", ");
}

/** What was looked at, where a round had several parts of the chart. */
export function partWords({ task, from, to }: Pick<ChartSettings, "task" | "from" | "to">): string {
  const part = from === 1 && to === 40 ? "The whole chart" : `${from} to ${to}`;
  return task === "names" ? part : `${part}, ${task === "order" ? "in order" : "the families"}`;
}

export const LOOK_COLUMNS = ["look", "lasted", "named", "not named before", "named so far"] as const;

/** Look by look, what each gained; in the order of {@link LOOK_COLUMNS}. */
export function lookRows(looks: readonly ChartLook[]): readonly (readonly string[])[] {
  const of = looks[0] ? chartList(looks[0].settings).length : 0;
  return curveOf(looks).map(({ count, gained, soFar }, at) => [
    String(at + 1),
    lookWords(looks[at]?.seconds ?? 0),
    String(count),
    String(gained.length),
    `${soFar} of ${of}`,
  ]);
}
