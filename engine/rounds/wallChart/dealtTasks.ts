/**
 * Question: what is asked of the chart where a set was dealt?
 *
 * One task after the other: names after a look at those rudiments alone, their order among their neighbours of the chart,
 * the families, then the hands one by one. Looks are as much shorter than the usual as there is less to look at.
 */
import { RUDIMENT_FAMILIES, RUDIMENTS, rudimentById } from "../../catalogue/index.ts";
import type { Dealt, Play, PlayerId } from "../frame/play.ts";
import type { WallChart } from "./round.ts";
import {
  type ChartSettings,
  type ChartTask,
  chartList,
  FIRST_SETTINGS,
  isOfLooks,
  isSamePart,
} from "./task.ts";

/** No look is shorter. Our choice. */
const SHORTEST_LOOK_SECONDS = 10;

/** The tasks of a set, in their order; none where nothing of it is on the chart. */
export function dealtTasks({ items, nothingElse }: Dealt): readonly ChartSettings[] {
  const subjects = (kind: string): readonly string[] =>
    items.flatMap((item) => (item.startsWith(`${kind}:`) ? [item.slice(kind.length + 1)] : []));
  const onChart = (ids: readonly string[]): readonly string[] => ids.filter((id) => rudimentById(id));
  const named = subjects("rudiment");
  const placed = onChart(subjects("order"));
  return [
    task("names", onChart(named)),
    // One alone is in order whatever is said. On a bad day nothing is added that was not dealt.
    task("order", nothingElse ? placed : withNeighbours(placed)),
    named.some((id) => RUDIMENT_FAMILIES.some((family) => id === `family/${family}`))
      ? { ...FIRST_SETTINGS, task: "families" as const }
      : null,
    task("said", onChart(subjects("sticking"))),
  ].filter((each) => each !== null);
}

function task(of: ChartTask, these: readonly string[]): ChartSettings | null {
  if (these.length === 0) return null;
  const share = these.length / RUDIMENTS.length;
  const seconds = (usual: number): number => Math.max(SHORTEST_LOOK_SECONDS, Math.round(usual * share));
  const { longSeconds, shortSeconds } = FIRST_SETTINGS;
  return {
    ...FIRST_SETTINGS,
    task: of,
    longSeconds: seconds(longSeconds),
    shortSeconds: seconds(shortSeconds),
    these: [...new Set(these)],
  };
}

function withNeighbours(ids: readonly string[]): readonly string[] {
  const numbers = ids.map((id) => rudimentById(id)?.number ?? 0);
  return RUDIMENTS.filter(({ number }) => numbers.some((each) => Math.abs(each - number) <= 1)).map(
    ({ id }) => id,
  );
}

/** The task that comes next; `null` once all were gone through by everybody: then the round goes on with the last. */
export function nextDealtTask({ dealt, players, own }: Play<WallChart>): ChartSettings | null {
  const all = players.length > 0 ? players : [null];
  return (dealt ? dealtTasks(dealt) : []).find((each) => !isGoneThrough(each, own, all)) ?? null;
}

function isGoneThrough(
  settings: ChartSettings,
  { past }: Pick<WallChart, "past">,
  players: readonly (PlayerId | null)[],
): boolean {
  if (isOfLooks(settings.task))
    return players.every((player) =>
      past.some(
        (each) => each.kind === "look" && each.look.by === player && isSamePart(each.look.settings, settings),
      ),
    );
  const asked = past.flatMap((each) => (each.kind === "sticking" ? [each.asked.entry] : []));
  return chartList(settings).every((id) => asked.includes(id));
}
