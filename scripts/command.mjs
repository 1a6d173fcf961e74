/** Running one command after the other, with its output on this terminal, and saying what is going on. */
import { spawn } from "node:child_process";
import { readFileSync } from "node:fs";
import { constants } from "node:os";
import { dirname, join, resolve } from "node:path";
import { fileURLToPath } from "node:url";

/** The folder of the project. */
export const root = resolve(dirname(fileURLToPath(import.meta.url)), "..");

/** One line of progress. */
export function say(line) {
  console.log(`[throneside] ${line}`);
}

/**
 * Runs a command in the project's folder and gives its exit code; a signal counts as 128 + its number, as in a
 * shell. `env` is added to this process's environment. Throws if the command cannot be started at all.
 */
export function run(command, args, env = {}) {
  return new Promise((settle, fail) => {
    const child = spawn(command, args, {
      cwd: root,
      stdio: "inherit",
      env: { ...process.env, ...env },
      shell: process.platform === "win32" && command === "npm",
    });
    child.on("error", (cause) => {
      fail(new Error(`${command} could not be started (${cause.message}). Is it installed?`, { cause }));
    });
    child.on("exit", (code, signal) => settle(code ?? 128 + (constants.signals[signal] ?? 0)));
  });
}

/** Runs the program `tool` of an installed package with this Node, and gives its exit code. */
export function runTool(packageName, tool, args, env = {}) {
  const folder = join(root, "node_modules", packageName);
  const { bin } = JSON.parse(readFileSync(join(folder, "package.json"), "utf8"));
  const path = typeof bin === "string" ? bin : bin[tool];
  return run(process.execPath, [join(folder, path), ...args], env);
}

/** Runs `main`; whatever it throws is said as a sentence, and the program fails. */
export async function runAsProgram(main) {
  try {
    process.exitCode = await main();
  } catch (error) {
    console.error(error instanceof Error ? error.message : String(error));
    process.exitCode = 1;
  }
}

/** True if the module at `moduleUrl` is the program that was started, not one that was imported. */
export function isProgram(moduleUrl) {
  return process.argv[1] !== undefined && resolve(process.argv[1]) === fileURLToPath(moduleUrl);
}
