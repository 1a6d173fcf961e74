import { describe, expect, test } from "vitest";
import { buildOf } from "../../../scripts/pages/keptFiles.ts";

const files = [
  { path: "index.html", content: "<title>one</title>" },
  { path: "assets/b-1.js", content: "b" },
  { path: "assets/a-1.flac", content: new Uint8Array([1, 2]) },
];

describe("the build to keep", () => {
  test("names every file from the first page on, the first page by its folder", () => {
    expect(buildOf(files).files).toEqual(["./assets/a-1.flac", "./assets/b-1.js", "./"]);
  });

  test("leaves out the worker itself, and texts that no page shows", () => {
    const more = ["service-worker.js", "licences.md", "assets/b-1.js.map"].map((path) => ({
      path,
      content: "x",
    }));
    expect(buildOf([...files, ...more])).toEqual(buildOf(files));
  });

  test("has the same version in whatever order the files come", () => {
    expect(buildOf(files.toReversed()).version).toBe(buildOf(files).version);
  });

  test.each([
    [
      "another text of the first page",
      [{ path: "index.html", content: "<title>two</title>" }, ...files.slice(1)],
    ],
    ["another name", [{ path: "assets/c-1.js", content: "b" }, ...files.filter((_, index) => index !== 1)]],
    ["a file more", [...files, { path: "icons/i.svg", content: "" }]],
  ])("has another version with %s", (_, others) => {
    expect(buildOf(others).version).not.toBe(buildOf(files).version);
  });
});
