/**
 * `npm test`: the unit tests, then the tests in a real browser; its last line is the sum of both.
 * `npm test -- unit` or `npm test -- browser` runs one of them; what else follows goes to its runner.
 */
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { buildIfOld } from "./build.mjs";
import { prepareChromium } from "./chromium.mjs";
import { root, runAsProgram, runTool, say } from "./command.mjs";
import { prepare } from "./install.mjs";
import { browserTally, sum, tallyLine, unitTally } from "./tally.mjs";

/** Projects of playwright.config.ts: two workers where nothing is measured, as the machine that checks has two cores. */
const browserProjects = [
  { project: "pages", workers: 2 },
  { project: "waiting", workers: 2 },
  { project: "real-time", workers: 1 },
];

const parts = { unit: runUnit, browser: runBrowser };

await runAsProgram(async () => {
  const [first, ...rest] = process.argv.slice(2);
  if (first !== undefined && !Object.hasOwn(parts, first)) {
    throw new Error(`There is no part "${first}"; use npm test -- unit or npm test -- browser, or neither.`);
  }
  await prepare();
  if ((await buildIfOld()) !== 0) return 1;
  // The bench of the studio, among the unit tests, opens a browser too.
  const chromium = await prepareChromium();
  const folder = mkdtempSync(join(tmpdir(), "throneside-tests-"));
  try {
    const results = [];
    for (const name of first === undefined ? Object.keys(parts) : [first]) {
      results.push(await parts[name](join(folder, `${name}.json`), rest, chromium));
    }
    return conclude(results);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
});

/** Says the sum, and gives the exit code: a failure anywhere, or no test at all, fails the whole. */
function conclude(results) {
  const total = sum(results.map((result) => result.tally));
  const ran = total.passed + total.failed;
  if (ran === 0) say("no test ran at all, which counts as a failure.");
  console.log(tallyLine(total));
  return ran > 0 && total.failed === 0 && results.every((result) => result.code === 0) ? 0 : 1;
}

async function runUnit(reportPath, args, chromium) {
  say("unit tests.");
  const reporters = ["--reporter=default", "--reporter=json", `--outputFile.json=${reportPath}`];
  const code = await runTool("vitest", "vitest", ["run", ...reporters, ...args], whereIs(chromium));
  return { code, tally: readTally(reportPath, unitTally, code) };
}

async function runBrowser(reportPath, args, chromium) {
  if (!hasSpecs()) {
    say("browser tests: there are no specs in tests/e2e yet, so none is run.");
    return { code: 0, tally: sum([]) };
  }
  say(`browser tests, in ${chromium ?? "the test runner's own Chromium"}.`);
  const results = [];
  for (const { project, workers } of browserProjects) {
    const projectReport = `${reportPath}.${project}`;
    const how = [`--project=${project}`, `--workers=${workers}`, "--pass-with-no-tests"];
    const code = await runTool("@playwright/test", "playwright", ["test", ...how, ...args], {
      THRONESIDE_BROWSER_REPORT: projectReport,
      ...whereIs(chromium),
    });
    results.push({ code, tally: readTally(projectReport, browserTally, code) });
  }
  return {
    code: Math.max(...results.map(({ code }) => code)),
    tally: sum(results.map(({ tally }) => tally)),
  };
}

function whereIs(chromium) {
  return chromium === undefined ? {} : { THRONESIDE_CHROMIUM: chromium };
}

/** A runner that ended badly without a failed test in its report (or without a report) counts as one failure. */
function readTally(reportPath, tallyOf, code) {
  const tally = existsSync(reportPath) ? tallyOf(JSON.parse(readFileSync(reportPath, "utf8"))) : sum([]);
  return code !== 0 && tally.failed === 0 ? { ...tally, failed: 1 } : tally;
}

function hasSpecs() {
  const folder = join(root, "tests", "e2e");
  return (
    existsSync(folder) && readdirSync(folder, { recursive: true }).some((name) => /\.spec\.tsx?$/.test(name))
  );
}
