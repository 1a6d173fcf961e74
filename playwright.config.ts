import { defineConfig } from "@playwright/test";
import { findChromium } from "./scripts/chromium.mjs";

/** Another port lets two trees be tested on one computer at once. */
const port = Number(process.env.THRONESIDE_TEST_PORT ?? 4174);
const address = `http://127.0.0.1:${port}/`;
const executablePath = findChromium();
const reportPath = process.env.THRONESIDE_BROWSER_REPORT;

/**
 * What measures in real time: these wait for each other, whole files and groups with the tag of tests/e2e/measured.ts. The other
 * tests may stand side by side (`npm test` has two workers for them).
 */
const IN_REAL_TIME = new RegExp(
  `[ /](${[
    "calibration",
    "click",
    "killed",
    "labFollowed",
    "lessonWriting",
    "longTake",
    "replaySpeed",
    "roundSpeed",
    "shelfScroll",
    "soundAhead",
    "soundOpening",
    "trading",
  ].join("|")})\\.spec\\.ts|@real-time`,
);

/** What waits in real time and measures nothing: it may stand two at a time, but not beside the pages, which leave no time over. */
const WAITING = /@waiting/;

/**
 * What the browser's own window would draw beside each page, and nobody sees: what drops down from its address line takes a third
 * as long as the page itself. Of several lists on its command line the browser takes the last: what the test runner leaves out
 * comes first.
 */
const LEFT_OUT_OF_THE_BROWSER = [
  "AvoidUnnecessaryBeforeUnloadCheckSync",
  "DestroyProfileOnBrowserClose",
  "HttpsUpgrades",
  "HttpsFirstBalancedModeAutoEnable",
  "LensOverlay",
  "MediaRouter",
  "PaintHolding",
  "ThirdPartyStoragePartitioning",
  "AvoidCorsURLLoaderRestartOnRedirect",
  "TcpPortRandomizationWin",
  "OptimizationHints",
  "NetworkTimeServiceQuerying",
  "AimEnabled",
  "PreconnectToSearch",
  "WebUIOmniboxPopup",
  "WebUIOmniboxAimPopup",
];

/** The built pages in a real browser; `npm test` builds them first. */
export default defineConfig({
  testDir: "tests/e2e",
  workers: 1,
  // Patience for a slow, busy machine: it costs nothing where all is well.
  timeout: 120_000,
  expect: { timeout: 20_000 },
  // Only what is measured in real time is tried again (tests/e2e/measured.ts).
  retries: 0,
  forbidOnly: Boolean(process.env.CI),
  reporter: [["list"], ...(reportPath === undefined ? [] : [["json", { outputFile: reportPath }] as const])],
  use: {
    baseURL: address,
    viewport: { width: 1280, height: 720 },
    // To keep all files takes the browser as long as to open the page. What works without a network allows it, and so do
    // walks through a lesson, so that they go as they go with it.
    serviceWorkers: "block",
    trace: "off",
    screenshot: "only-on-failure",
    launchOptions: {
      ...(executablePath === undefined ? {} : { executablePath }),
      args: [
        "--no-sandbox",
        "--disable-gpu",
        "--no-first-run",
        "--disable-background-networking",
        `--disable-features=${LEFT_OUT_OF_THE_BROWSER.join(",")}`,
      ],
    },
  },
  projects: [
    { name: "pages", grepInvert: [IN_REAL_TIME, WAITING] },
    // Tests of one file, too, stand side by side: each waits for itself.
    { name: "waiting", grep: WAITING, fullyParallel: true },
    { name: "real-time", grep: IN_REAL_TIME, grepInvert: WAITING },
  ],
  webServer: {
    command: `node scripts/serve.mjs --port ${port}`,
    url: address,
    reuseExistingServer: !process.env.CI,
  },
});
