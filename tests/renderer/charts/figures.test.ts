import * as fc from "fast-check";
import { expect, test } from "vitest";
import {
  formatBars,
  formatLean,
  formatMs,
  formatRatio,
  formatSpread,
  formatTouch,
} from "../../../renderer/charts/index.ts";

test.each([
  [9.2, undefined, "9 ms behind"],
  [-4.1, 3, "4 ms ahead"],
  [-4.1, undefined, "in the pocket"],
  [6, undefined, "in the pocket"],
  [6.6, undefined, "7 ms behind"],
  [11, 12.5, "in the pocket"],
  [-24.6, 12.5, "25 ms ahead"],
  [null, undefined, "too few strokes"],
])("a lean of %s, unheard up to %s: %s", (leanMs, limitMs, words) => {
  expect(formatMs(leanMs, limitMs)).toBe(words);
});

test.each([
  [9.24, "9.2 ms behind"],
  [-4.25, "4.3 ms ahead"],
  [0.04, "0.0 ms"],
  [-0.04, "0.0 ms"],
  [1.005, "1.0 ms behind"],
  [null, "too few strokes"],
])("%s in a table: %s", (leanMs, words) => {
  expect(formatLean(leanMs)).toBe(words);
});

test("a lean in a table reads back to the tenth, sign and all", () => {
  fc.assert(
    fc.property(fc.double({ min: -500, max: 500, noNaN: true }), (leanMs) => {
      const [, figure, side] = /^(\d+\.\d) ms ?(ahead|behind)?$/.exec(formatLean(leanMs)) ?? [];
      const read = Number(figure) * (side === "ahead" ? -1 : 1);
      expect(Math.abs(read - leanMs)).toBeLessThanOrEqual(0.05 + 1e-6);
    }),
  );
});

test("spread, ratio and bars", () => {
  expect(formatSpread(14.16)).toBe("14.2 ms");
  expect(formatRatio(1.93)).toBe("1.9 : 1");
  expect(formatRatio(null)).toBe("not written here");
  expect([0, 1, 12, 31].map(formatBars)).toEqual(["less than a bar", "one bar", "twelve bars", "31 bars"]);
});

test.each([
  [{ asWritten: 24, ghosted: 0, heavy: 0 }, "as written"],
  [{ asWritten: 60, ghosted: 0, heavy: 10 }, "60 as written, 10 heavy"],
  [{ asWritten: 5, ghosted: 2, heavy: 1 }, "5 as written, 2 ghosted, 1 heavy"],
  [{ asWritten: 0, ghosted: 0, heavy: 0 }, "nothing to compare"],
])("touch %o: %s", (touch, words) => {
  expect(formatTouch(touch)).toBe(words);
});
