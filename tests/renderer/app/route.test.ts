import { expect, test } from "vitest";
import { hrefOf, restOf, routeOf, SCREENS } from "../../../renderer/app/route.ts";

test.each([
  ["", "desk"],
  ["#/kit", "kit"],
  ["#/call-a-style", "call-a-style"],
  ["#/roster/3f2a", "roster"],
  ["#/wall", "wall"],
  ["#/nowhere", "desk"],
])("the address %s shows %s", (hash, route) => {
  expect(routeOf(hash)).toBe(route);
});

test("the address of every screen leads to it", () => {
  for (const { id } of SCREENS) expect(routeOf(hrefOf(id))).toBe(id);
});

test.each([[["a lesson~1/2"]], [["3f2a", "12.5"]], [[]]])(
  "what is named within a screen comes back: %j",
  (rest) => {
    const hash = hrefOf("roster", ...rest);
    expect(routeOf(hash)).toBe("roster");
    expect(restOf(hash)).toEqual(rest);
  },
);

test("a hash that is not well formed stands for itself", () => {
  expect(restOf("#/roster/%E0%A4%A")).toEqual(["%E0%A4%A"]);
});
