import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { delimiter, join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { findChromium } from "../../scripts/chromium.mjs";

let folder = "";
const at = (...names: string[]) => join(folder, ...names);

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "throneside-chromium-"));
  for (const name of ["a", "b", "empty"]) mkdirSync(at(name));
  writeFileSync(at("a", "google-chrome"), "", { mode: 0o755 });
  writeFileSync(at("a", "chromium"), "", { mode: 0o644 });
  writeFileSync(at("b", "chromium"), "", { mode: 0o755 });
  mkdirSync(at("empty", "chromium"));
});
afterAll(() => rmSync(folder, { recursive: true }));

describe("the browser for the tests", () => {
  test("is the free build before others, and a program that can be run", () => {
    expect(findChromium({ PATH: [at("a"), at("b")].join(delimiter) })).toBe(at("b", "chromium"));
  });

  test("is another of the family where there is no free build", () => {
    expect(findChromium({ PATH: at("a") })).toBe(at("a", "google-chrome"));
  });

  test.each([
    ["", undefined],
    ["empty", undefined],
  ])("is none in PATH %j", (name, found) => {
    expect(findChromium({ PATH: name === "" ? "" : at(name) })).toBe(found);
  });

  test("is the chosen one before all", () => {
    const env = { PATH: at("b"), THRONESIDE_CHROMIUM: at("a", "google-chrome") };
    expect(findChromium(env)).toBe(at("a", "google-chrome"));
  });

  test("is a sentence if the chosen one cannot be run", () => {
    expect(() => findChromium({ PATH: at("b"), THRONESIDE_CHROMIUM: at("a", "chromium") })).toThrow(
      "not a program that can be run",
    );
  });
});
