/** The Chromium that the browser tests run in: the system's own if there is one, else an installed one. */
import { accessSync, constants, statSync } from "node:fs";
import { delimiter, join } from "node:path";
import { run, runTool, say } from "./command.mjs";

/** Names that Chromium-family browsers go by on the PATH, the free build first. */
const names = ["chromium", "chromium-browser", "google-chrome", "google-chrome-stable"];

/**
 * The path of the browser named by THRONESIDE_CHROMIUM, else of one on the PATH, else undefined.
 * Throws a sentence if THRONESIDE_CHROMIUM names no program.
 */
export function findChromium(env = process.env) {
  const chosen = env.THRONESIDE_CHROMIUM;
  if (chosen) {
    if (isExecutable(chosen)) return chosen;
    throw new Error(`THRONESIDE_CHROMIUM is "${chosen}", and that is not a program that can be run.`);
  }
  const folders = (env.PATH ?? "").split(delimiter).filter((folder) => folder !== "");
  return names.flatMap((name) => folders.map((folder) => join(folder, name))).find(isExecutable);
}

/**
 * Finds or installs a Chromium. Gives its path, or undefined if it is the test runner's own, which that finds by
 * itself. Throws a sentence if there is none in the end.
 */
export async function prepareChromium() {
  const found = findChromium();
  if (found !== undefined) return found;
  if (process.getuid?.() === 0 && isOnPath("apt-get")) {
    say("no Chromium on the PATH; installing Debian's chromium package.");
    const quiet = { DEBIAN_FRONTEND: "noninteractive" };
    await run("apt-get", ["update", "-q"], quiet);
    await run("apt-get", ["install", "-q", "-y", "--no-install-recommends", "chromium"], quiet);
    const installed = findChromium();
    if (installed !== undefined) return installed;
    say("that did not bring a chromium; trying the test runner's own.");
  }
  say("no Chromium on the PATH; asking the test runner to install its own (about 150 MB, once).");
  if ((await runTool("@playwright/test", "playwright", ["install", "chromium"])) === 0) return undefined;
  throw new Error(
    "No Chromium was found or could be installed. Install Chromium with your system's package manager, " +
      "or set THRONESIDE_CHROMIUM to the path of one.",
  );
}

function isOnPath(name) {
  const folders = (process.env.PATH ?? "").split(delimiter);
  return folders.some((folder) => isExecutable(join(folder, name)));
}

function isExecutable(path) {
  try {
    accessSync(path, constants.X_OK);
    return statSync(path).isFile();
  } catch {
    // Not there, or not ours to run: either way it is not the browser to use.
    return false;
  }
}
