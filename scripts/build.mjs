/**
 * `npm run build`: bundles the renderer, the command line and the two halves of the desktop shell into dist/.
 * `npm run build -- cli` (or any of the names below) builds only those parts. Types are checked by `npm run check`.
 */
import { existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { isProgram, root, runAsProgram, runTool, say } from "./command.mjs";
import { prepare } from "./install.mjs";

/** Name (which is Vite's mode, but for the renderer), the file it starts from, and the file it ends as. */
const parts = [
  { name: "renderer", entry: "renderer/index.html", output: "dist/renderer/index.html" },
  { name: "cli", entry: "cli/throneside.ts", output: "dist/cli/throneside.js" },
  { name: "room", entry: "broker/room.ts", output: "dist/broker/room.js" },
  { name: "electron-main", entry: "electron/main.ts", output: "dist/electron/main.js" },
  { name: "electron-preload", entry: "electron/preload.ts", output: "dist/electron/preload.cjs" },
];

/** What the bundles are made of; a change of time in any of them makes dist/ old. */
const sources = [
  "engine",
  "engraving",
  "renderer",
  "electron",
  "broker",
  "cli",
  "kit-maps",
  "scripts/pages",
  "vite.config.ts",
  "package-lock.json",
];

const stamp = join(root, "dist", "built.json");

/** Builds the named parts (all, if none is named) that exist; gives 0, or 1 if any of them fails. */
export async function build(names = []) {
  const unknown = names.find((name) => !parts.some((part) => part.name === name));
  if (unknown !== undefined) {
    console.error(
      `There is no part "${unknown}"; the parts are ${parts.map((part) => part.name).join(", ")}.`,
    );
    return 1;
  }
  // Taken before the first bundle, so that a source saved while it is being made still counts as newer.
  const startedAtMs = Date.now();
  let allBuilt = true;
  for (const part of parts.filter((each) => names.length === 0 || names.includes(each.name))) {
    // The parts do not need each other: one that fails must not keep the rest from being built.
    allBuilt = (await buildPart(part)) && allBuilt;
  }
  if (!allBuilt) return 1;
  if (names.length === 0) {
    mkdirSync(join(root, "dist"), { recursive: true });
    writeFileSync(stamp, `${JSON.stringify({ startedAtMs })}\n`);
  }
  return 0;
}

/** Builds everything, unless dist/ is newer than all sources. */
export async function buildIfOld() {
  if (isFresh()) {
    say("dist/ is newer than the sources; not building again.");
    return 0;
  }
  return build();
}

/** Builds one part, unless it is newer than all sources. */
export async function buildPartIfOld(name) {
  const part = parts.find((each) => each.name === name);
  if (part === undefined) throw new Error(`There is no part "${name}".`);
  const output = join(root, part.output);
  const isFresh =
    existsSync(output) && sources.every((source) => newestMs(join(root, source)) < statSync(output).mtimeMs);
  return isFresh ? 0 : build([name]);
}

async function buildPart({ name, entry, output }) {
  if (!existsSync(join(root, entry))) {
    say(`${name}: skipped, ${entry} does not exist.`);
    return true;
  }
  say(`${name}: building from ${entry}.`);
  const code = await runTool("vite", "vite", ["build", ...(name === "renderer" ? [] : ["--mode", name])]);
  if (code !== 0) {
    console.error(`${name}: the build failed (exit code ${code}); Vite's message is above.`);
    return false;
  }
  if (!existsSync(join(root, output))) {
    console.error(`${name}: Vite ended well but did not write ${output}; see vite.config.ts.`);
    return false;
  }
  return true;
}

function isFresh() {
  if (!existsSync(stamp)) return false;
  const { startedAtMs } = JSON.parse(readFileSync(stamp, "utf8"));
  const built = parts.every(
    ({ entry, output }) => !existsSync(join(root, entry)) || existsSync(join(root, output)),
  );
  return built && sources.every((source) => newestMs(join(root, source)) < startedAtMs);
}

/** When the newest file or folder at or below `path` was changed (a folder's time tells of removed files). */
function newestMs(path) {
  if (!existsSync(path)) return 0;
  const status = statSync(path);
  if (!status.isDirectory()) return status.mtimeMs;
  const inside = readdirSync(path).map((name) => newestMs(join(path, name)));
  return Math.max(status.mtimeMs, ...inside);
}

if (isProgram(import.meta.url)) {
  await runAsProgram(async () => {
    await prepare();
    return build(process.argv.slice(2));
  });
}
