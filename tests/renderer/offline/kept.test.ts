import { expect, test } from "vitest";
import { isNamedByContent, namesToDrop } from "../../../renderer/offline/kept.ts";

test.each([
  ["./assets/index-CxYGsdJh.js", true],
  ["./", false],
  ["./manifest.webmanifest", false],
  ["./icons/throneside.svg", false],
])("%s is named by its content: %s", (file, isSo) => {
  expect(isNamedByContent(file)).toBe(isSo);
});

test.each([
  { names: ["throneside-b"], dropped: [] },
  { names: ["throneside-a", "throneside-b"], dropped: [] },
  {
    names: ["throneside-y", "throneside-z", "throneside-a", "throneside-b"],
    dropped: ["throneside-y", "throneside-z"],
  },
  { names: ["of another program", "throneside-b"], dropped: [] },
])("of $names the build b and the one before it stay", ({ names, dropped }) => {
  expect(namesToDrop(names, "throneside-b")).toEqual(dropped);
});
