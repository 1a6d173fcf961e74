import { expect, test } from "vitest";
import { firstPage, isOwn } from "../../electron/origin.ts";

test.each([
  [firstPage, true],
  ["app://throneside", true],
  ["app://throneside/index.html#/replay", true],
  ["app://throneside.example.org/", false],
  ["app://throneside:8080/", false],
  ["app://throneside@example.org/", false],
  ["app://", false],
  ["https://throneside/", false],
  ["data:text/html,app://throneside/", false],
  ["javascript:void(0)", false],
  ["about:blank", false],
  ["null", false],
  ["", false],
])("%s is one of the program's own pages: %s", (address, own) => {
  expect(isOwn(address)).toBe(own);
});
