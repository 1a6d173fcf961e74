import { expect, test } from "vitest";
import { isOffered } from "../../../renderer/offline/offline.ts";

test.each([
  ["http:", true, true, true],
  ["https:", true, true, true],
  ["app:", true, true, false],
  ["file:", true, true, false],
  ["http:", false, true, false],
  ["http:", true, false, false],
])(
  "a page from %s, built: %s, with service workers: %s, keeps its files: %s",
  (protocol, isBuilt, has, isSo) => {
    expect(isOffered(protocol, isBuilt, has)).toBe(isSo);
  },
);
