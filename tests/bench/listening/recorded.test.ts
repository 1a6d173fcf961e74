/** The guard itself: it must speak when something got worse, and only then. */
import { describe, expect, test } from "vitest";
import { worseThanRecorded } from "./recorded.ts";
import { meets, type Row, shareRow, tableText } from "./row.ts";

const calls = (right: number, asked: number): readonly boolean[] =>
  Array.from({ length: asked }, (_, index) => index < right);

describe("worse than recorded", () => {
  test("where the whole interval lies below", () => {
    // Wilson of 30 of 40: 0.598 to 0.858 (computed).
    const row = shareRow("named", calls(30, 40));
    expect(worseThanRecorded([row], { named: 0.95 })[0]).toContain(
      '"named" is 0.750 [0.598, 0.858], recorded 0.95',
    );
    expect(worseThanRecorded([row], { named: 0.85 })).toEqual([]);
    // What is recorded has an interval of its own, 0.02 to either side.
    expect(worseThanRecorded([row], { named: 0.875 })).toEqual([]);
    expect(worseThanRecorded([row], { named: 0.882 }).length).toBe(1);
  });

  test("where lower is better, above", () => {
    const error: Row = {
      what: "error",
      figure: 0.2,
      low: 0.15,
      high: 0.25,
      cases: 9,
      target: { atMost: 0.05 },
    };
    expect(worseThanRecorded([error], { error: 0.1 }).length).toBe(1);
    expect(worseThanRecorded([error], { error: 0.3 })).toEqual([]);
  });

  test("a figure nobody recorded is told, not passed over", () => {
    expect(worseThanRecorded([shareRow("new", calls(9, 9))], {})[0]).toContain("not recorded");
  });
});

test("a row of the table: figure, interval, cases, target and whether it is met", () => {
  const row = shareRow("named", calls(9, 10), { atLeast: 0.95 });
  expect(meets(row)).toBe(false);
  expect(tableText([row]).replaceAll(/ +/g, " ")).toBe("named 0.900 [0.596, 0.982] of 10 ≥ 0.95 not met");
  expect(meets(shareRow("named", calls(10, 10), { atLeast: 0.95 }))).toBe(true);
  expect(meets(shareRow("named", calls(10, 10)))).toBeUndefined();
});
