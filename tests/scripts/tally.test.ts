import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { browserTally, sum, tallyLine, unitTally } from "../../scripts/tally.mjs";

const modules = resolve(import.meta.dirname, "../../node_modules");
let folder = "";
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "throneside-tally-"));
  symlinkSync(modules, join(folder, "node_modules"), "junction");
  writeFileSync(join(folder, "package.json"), '{ "type": "module" }');
});
afterAll(() => rmSync(folder, { recursive: true }));

/** Runs a test runner for real on `files` and gives the report it writes, parsed. */
function reportOf(
  program: string,
  args: readonly string[],
  files: Readonly<Record<string, string>>,
): unknown {
  for (const [name, text] of Object.entries(files)) writeFileSync(join(folder, name), text);
  const env = { ...process.env, PLAYWRIGHT_JSON_OUTPUT_FILE: join(folder, "report.json") };
  spawnSync(process.execPath, [join(modules, program), ...args], { cwd: folder, env });
  return JSON.parse(readFileSync(join(folder, "report.json"), "utf8"));
}

const someTests = (runner: string) => `
  import { expect, test } from "${runner}";
  test("a", () => expect(1).toBe(1));
  test("b", () => expect(1).toBe(1));
  test("c", () => expect(1).toBe(2));
  test.skip("d", () => expect(1).toBe(1));
`;

describe("the reports that the runners really write", () => {
  const vitest = (files: Readonly<Record<string, string>>) =>
    reportOf(
      "vitest/vitest.mjs",
      ["run", "--reporter=json", "--outputFile=report.json", ...Object.keys(files)],
      files,
    );
  const playwright = (files: Readonly<Record<string, string>>) =>
    reportOf("@playwright/test/cli.js", ["test", "--reporter=json", ...Object.keys(files)], files);

  test("unit tests that pass, fail and are skipped", () => {
    expect(unitTally(vitest({ "some.test.js": someTests("vitest") }))).toEqual({
      passed: 2,
      failed: 1,
      skipped: 1,
    });
  });

  test("a unit test file that cannot be loaded is a failure", () => {
    const files = { "broken.test.js": 'import "./nothing.js";' };
    expect(unitTally(vitest(files))).toEqual({ passed: 0, failed: 1, skipped: 0 });
  });

  test("browser tests that pass, fail and are skipped", () => {
    const files = { "some.spec.js": someTests("@playwright/test") };
    expect(browserTally(playwright(files))).toEqual({ passed: 2, failed: 1, skipped: 1 });
  });

  test("a browser test that is tried again, and passes, has passed; nothing is tried again unasked", () => {
    const onRetry = (name: string, configure: string) => `
      import { expect, test } from "@playwright/test";
      ${configure}
      test("${name}", ({}, { retry }) => expect(retry).toBe(1));
    `;
    const report = playwright({
      "measured.spec.js": onRetry("measured", "test.describe.configure({ retries: 2 });"),
      "other.spec.js": onRetry("other", ""),
    });
    expect(browserTally(report)).toEqual({ passed: 1, failed: 1, skipped: 0 });
  });

  test("a browser test file that cannot be loaded is a failure", () => {
    const { passed, failed } = browserTally(playwright({ "broken.spec.js": 'import "./nothing.js";' }));
    expect(passed).toBe(0);
    expect(failed).toBeGreaterThan(0);
  });
});

test.each([
  [[], "0 passed, 0 failed"],
  [
    [
      { passed: 2, failed: 0, skipped: 0 },
      { passed: 3, failed: 1, skipped: 0 },
    ],
    "5 passed, 1 failed",
  ],
  [[{ passed: 2, failed: 0, skipped: 4 }], "2 passed, 0 failed, 4 skipped"],
])("the closing line of %j", (tallies, line) => {
  expect(tallyLine(sum(tallies))).toBe(line);
});
