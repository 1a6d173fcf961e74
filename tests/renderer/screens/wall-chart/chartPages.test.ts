import { expect, test } from "vitest";
import { RUDIMENTS } from "../../../../engine/catalogue/index.ts";
import { type ChartSettings, FIRST_SETTINGS } from "../../../../engine/rounds/index.ts";
import { pagesOf } from "../../../../renderer/screens/wall-chart/chartPages.ts";

const ALL = RUDIMENTS.map(({ id }) => id);

function pages(settings: Partial<ChartSettings>): readonly (readonly string[])[] {
  return pagesOf({ settings: { ...FIRST_SETTINGS, ...settings } });
}

test.each([
  ["the whole chart: four pages", {}, ALL, 4],
  ["ten of it: one", { from: 11, to: 20 }, ALL.slice(10, 20), 1],
  ["eleven: two", { from: 5, to: 15 }, ALL.slice(4, 15), 2],
  ["families only: the same rudiments are looked at", { task: "families" }, ALL, 4],
] as const)("%s", (_, settings, entries, count) => {
  const found = pages(settings);
  expect(found.flat()).toEqual(entries);
  expect(found).toHaveLength(count);
  expect(Math.max(...found.map(({ length }) => length))).toBeLessThanOrEqual(10);
});
