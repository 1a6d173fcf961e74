import { describe, expect, test } from "vitest";
import { chooseDelay, distanceOf } from "../../../engine/rooms/index.ts";

describe("the delay that is chosen", () => {
  test.each([
    ["on one computer", 0.0005, 0.001, 2, "none", 0, "room"],
    ["in one house, with a stray", 0.003, 0.06, 2, "half-bar", 1, "room"],
    ["across a city", 0.02, 0.05, 2, "half-bar", 1, "city"],
    ["across a city, fast", 0.04, 0.2, 1, "one-bar", 1, "city"],
    ["across a continent", 0.15, 0.2, 2, "one-bar", 2, "continent"],
    ["300 ms and 50 ms of jitter, 120 a minute", 0.3, 0.45, 2, "one-bar", 2, "continent"],
  ])("%s", (_, oneWay, worst, bar, kind, seconds, distance) =>
    expect(chooseDelay(oneWay, worst, bar)).toEqual({ kind, seconds, distance }),
  );

  test("where not even a bar is enough it is said how long one would have to be", () => {
    const delay = chooseDelay(0.3, 0.45, 1);
    expect(delay).toMatchObject({ kind: "too-far", distance: "continent" });
    expect("neededSeconds" in delay && delay.neededSeconds).toBeCloseTo(1.39, 6);
  });

  test.each([
    [0.0115, "room"],
    [0.0116, "city"],
    [0.066, "city"],
    [0.0661, "continent"],
  ])("one way of %d s is as %s", (oneWay, distance) => expect(distanceOf(oneWay)).toBe(distance));
});
