import { expect, test } from "vitest";
import { hrefOf, routeOf, SCREENS } from "../../../renderer/app/route.ts";

test.each([
  ["", "kit"],
  ["#/kit", "kit"],
  ["#/call-a-style", "call-a-style"],
  ["#/wall", "wall"],
  ["#/nowhere", "kit"],
])("the address %s shows %s", (hash, route) => {
  expect(routeOf(hash)).toBe(route);
});

test("the address of every screen leads to it", () => {
  for (const { id } of SCREENS) expect(routeOf(hrefOf(id))).toBe(id);
});
