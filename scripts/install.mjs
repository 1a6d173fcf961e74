/**
 * What has to be in place before anything else can run: a Node that is new enough, and the packages that the
 * lock file names. Standard library only, and old syntax only, so that an old Node can still read the message.
 */
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { root, run, say } from "./command.mjs";

/** The oldest Node that the tool chain runs on: the floor of Vite and of `engines` in package.json. */
export const oldestNode = "20.19.0";

/** True if `version` ("20.19.1") is `oldest` or newer. */
export function isNewEnough(version, oldest) {
  const have = version.split(".").map(Number);
  const need = oldest.split(".").map(Number);
  const place = need.findIndex((number, index) => number !== have[index]);
  return place === -1 || have[place] > need[place];
}

/**
 * The packages that a lock file asks for and an installation does not have in that version, as their paths.
 * Optional packages are left out: they are there or not by platform. `locked` and `installed` are the parsed
 * package-lock.json and node_modules/.package-lock.json.
 */
export function missingPackages(locked, installed) {
  return Object.entries(locked.packages)
    .filter(([path, entry]) => path !== "" && !entry.optional && !entry.devOptional && !entry.inBundle)
    .filter(([path, entry]) => installed.packages[path]?.version !== entry.version)
    .map(([path]) => path);
}

/** Ends the program with a sentence if this Node is too old. */
export function requireNode() {
  if (isNewEnough(process.versions.node, oldestNode)) return;
  console.error(
    `Throneside needs Node ${oldestNode} or newer, and this is Node ${process.versions.node}. ` +
      "Install a newer Node, then run the same command again.",
  );
  process.exit(1);
}

/** Checks Node, then runs `npm ci` if the installed packages are not those of the lock file. */
export async function prepare() {
  requireNode();
  const reason = whyInstall();
  if (reason === undefined) return;
  say(`${reason} Installing with npm ci; the first time takes a while.`);
  const [command, ...first] = npmCommand();
  // Errors only: on Node 20 npm warns of Electron's installer, which is never run here.
  const quiet = ["--no-audit", "--no-fund", "--loglevel=error"];
  const code = await run(command, [...first, "ci", "--include=dev", ...quiet]);
  if (code === 0) return;
  console.error(`npm ci failed (exit code ${code}). Its own message is above; put that right and try again.`);
  process.exit(1);
}

/** A sentence that says why an installation is needed, or undefined if none is. */
function whyInstall() {
  const record = join(root, "node_modules", ".package-lock.json");
  if (!existsSync(record)) return "The packages are not installed yet.";
  const missing = missingPackages(readJson(join(root, "package-lock.json")), readJson(record));
  if (missing.length === 0) return undefined;
  return `package-lock.json asks for ${missing.length} packages that are not installed in that version.`;
}

/** npm by the path it gives to its own scripts (which works on every system), else by name. */
function npmCommand() {
  const path = process.env.npm_execpath;
  return path?.endsWith(".js") ? [process.execPath, path] : ["npm"];
}

function readJson(path) {
  return JSON.parse(readFileSync(path, "utf8"));
}
