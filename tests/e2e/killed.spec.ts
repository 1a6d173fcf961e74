/**
 * The program killed while a lesson is played: a browser of its own, ended by SIGKILL with all its processes at an instant
 * by chance, then opened again. At most the last quarter of a second of strikes may be gone, and the database opens clean.
 *
 * As many instants as fit into forty seconds; with THRONESIDE_KILLS so many.
 */
import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { chromium, expect, test } from "@playwright/test";
import { findChromium } from "../../scripts/chromium.mjs";
import { type ServedPage, servePage } from "../servedPage.ts";
import type { Found } from "./killed/page.ts";
import { MEASURED } from "./measured.ts";

// The time lost is measured. Once in some 140 kills the next page found no lesson at all, for a reason not known yet: a try
// that fails so is no stall, and its message is to be read.
test.describe.configure(MEASURED);

const KILLS = Number(process.env.THRONESIDE_KILLS ?? Number.POSITIVE_INFINITY);
const BUDGET_MS = Number.isFinite(KILLS) ? Number.POSITIVE_INFINITY : 40_000;
const MOST_LOST_MS = 250;
/** A kill comes within so long after the playing began. */
const LONGEST_PLAYED_MS = 1500;

let served: ServedPage;
let profile: string;
let latest: ChildProcess | undefined;

test.beforeAll(async () => {
  served = await servePage(resolve(import.meta.dirname, "killed/page.ts"));
  profile = mkdtempSync(join(tmpdir(), "throneside-killed-"));
});

test.afterAll(async () => {
  if (latest && latest.exitCode === null && latest.signalCode === null) await kill(latest);
  served?.close();
  rmSync(profile, { recursive: true, force: true });
});

/** A browser with a profile of its own, in a process group of its own. */
function browser(query = ""): ChildProcess {
  return spawn(
    findChromium() ?? chromium.executablePath(),
    [
      "--headless=new",
      "--no-sandbox",
      "--disable-gpu",
      "--no-first-run",
      "--disable-background-networking",
      `--user-data-dir=${profile}`,
      served.address + query,
    ],
    { detached: true, stdio: "ignore" },
  );
}

/** Ends every process of the browser, between two of their instructions. */
async function kill(child: ChildProcess): Promise<number> {
  const gone = once(child, "exit");
  if (child.pid === undefined) throw new Error("The browser did not start.");
  const atMs = Date.now();
  process.kill(-child.pid, "SIGKILL");
  await gone;
  return atMs;
}

test("at most the last 250 ms of strikes are gone, and the database opens clean", async () => {
  test.setTimeout(Number.isFinite(KILLS) ? KILLS * 10_000 + 60_000 : BUDGET_MS + 60_000);
  const fromMs = Date.now();
  const lost: number[] = [];
  let killedAtMs: number | undefined;
  for (let round = 0; ; round += 1) {
    const isOver = round >= KILLS || Date.now() - fromMs > BUDGET_MS;
    const told = served.said("/found");
    const playing = served.said("/playing");
    latest = browser(isOver ? "?only-look" : "");
    const found = (await told) as Found;
    expect(found, `after kill ${round}`).toMatchObject({
      trouble: null,
      isWriter: true,
      setAside: 0,
      isWhole: true,
    });
    if (killedAtMs !== undefined) {
      expect(found.open, `the lesson of kill ${round}`).toBe(1);
      lost.push(killedAtMs - found.lastMs);
    }
    if (isOver) {
      await kill(latest);
      break;
    }
    await playing;
    // No state is waited for: the instant is by chance.
    await new Promise((done) => setTimeout(done, Math.random() * LONGEST_PLAYED_MS));
    killedAtMs = await kill(latest);
  }
  const sorted = [...lost].sort((a, b) => a - b);
  const at = (share: number) => sorted[Math.floor(share * (sorted.length - 1))]?.toFixed(0);
  console.info(
    `${lost.length} kills: lost strikes of the last ${at(0.5)} ms (middle), ${at(0.95)} ms (95 of 100), ${at(1)} ms (most)`,
  );
  expect(lost.length).toBeGreaterThan(0);
  expect(Math.max(...lost)).toBeLessThanOrEqual(MOST_LOST_MS);
});
