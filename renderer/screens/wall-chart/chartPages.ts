import { type ChartLook, chartList } from "../../../engine/rounds/index.ts";

/** Rudiments on one page of the chart: as many as can be read on it at 1280 by 720. */
const PER_PAGE = 10;

/** The chart of a look in pages of ten. */
export function pagesOf({ settings }: Pick<ChartLook, "settings">): readonly (readonly string[])[] {
  // Families are told by all that belongs to them: the chart that is shown is that of the rudiments.
  const list = chartList({ ...settings, task: "names" });
  return Array.from({ length: Math.ceil(list.length / PER_PAGE) }, (_, page) =>
    list.slice(page * PER_PAGE, (page + 1) * PER_PAGE),
  );
}
