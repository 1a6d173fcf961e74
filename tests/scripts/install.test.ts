import { readFileSync } from "node:fs";
import { resolve } from "node:path";
import { describe, expect, test } from "vitest";
import { isNewEnough, missingPackages, oldestNode } from "../../scripts/install.mjs";

describe("a new enough Node", () => {
  test.each([
    ["20.19.0", true],
    ["20.19.1", true],
    ["20.20.0", true],
    ["22.0.0", true],
    ["100.0.0", true],
    ["20.18.9", false],
    ["18.99.9", false],
    ["9.99.9", false],
  ])("%s: %s", (version, enough) => {
    expect(isNewEnough(version, "20.19.0")).toBe(enough);
  });

  test("is the same one that package.json asks for", () => {
    const { engines } = JSON.parse(readFileSync(resolve(import.meta.dirname, "../../package.json"), "utf8"));
    expect(`${engines.node}.0`).toBe(`>=${oldestNode}`);
  });
});

describe("what is missing from an installation", () => {
  const installed = { packages: { "node_modules/a": { version: "1.0.0" } } };

  test.each([
    ["nothing, if the versions are the same", { "node_modules/a": { version: "1.0.0" } }, []],
    ["a package in another version", { "node_modules/a": { version: "1.0.1" } }, ["node_modules/a"]],
    ["a package that is not there", { "node_modules/b": { version: "1.0.0" } }, ["node_modules/b"]],
    ["not the project itself", { "": { version: "2.0.0" } }, []],
    ["not an optional package", { "node_modules/b": { version: "1.0.0", optional: true } }, []],
    ["not a package inside another", { "node_modules/b": { version: "1.0.0", inBundle: true } }, []],
  ])("%s", (_name, packages, missing) => {
    expect(missingPackages({ packages }, installed)).toEqual(missing);
  });
});
