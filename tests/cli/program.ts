/**
 * The built program as a child process: what a user of the command line has. It is built when it is missing or
 * older than what it is made of.
 */
import { spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, readdirSync, rmSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { afterAll } from "vitest";

const root = resolve(import.meta.dirname, "../..");
/** The built program. */
export const PROGRAM = join(root, "dist/cli/throneside.js");
const SOURCES = ["engine", "cli", "kit-maps", "vite.config.ts"];

function newestMs(path: string): number {
  const status = statSync(path);
  if (!status.isDirectory()) return status.mtimeMs;
  return Math.max(...readdirSync(path).map((name) => newestMs(join(path, name))));
}

function buildIfOld(): void {
  const sources = Math.max(...SOURCES.map((name) => newestMs(join(root, name))));
  if (existsSync(PROGRAM) && statSync(PROGRAM).mtimeMs > sources) return;
  const vite = join(root, "node_modules/vite/bin/vite.js");
  const { status, stdout, stderr } = spawnSync(process.execPath, [vite, "build", "--mode", "cli"], {
    cwd: root,
    encoding: "utf8",
  });
  if (status !== 0) throw new Error(`The command line could not be built.\n${stdout}\n${stderr}`);
}

buildIfOld();

export interface Ran {
  readonly code: number | null;
  readonly stdout: string;
  readonly stderr: string;
  /** Standard output, line by line. */
  readonly lines: readonly string[];
}

/** Runs the program to its end, with `input` on its standard input. */
export function run(args: readonly string[], nodeArgs: readonly string[] = [], input = ""): Ran {
  const { status, stdout, stderr, error } = spawnSync(process.execPath, [...nodeArgs, PROGRAM, ...args], {
    cwd: root,
    encoding: "utf8",
    input,
    maxBuffer: 2 ** 28,
  });
  if (error) throw error;
  return { code: status, stdout, stderr, lines: stdout.split("\n").filter((line) => line !== "") };
}

/** Runs the program with `--json`; every line must be an object. */
export function runJson(args: readonly string[]): Ran & { readonly objects: readonly unknown[] } {
  const ran = run([...args, "--json"]);
  return { ...ran, objects: ran.lines.map((line): unknown => JSON.parse(line)) };
}

/** A folder for the files of one test file, taken away at its end. */
export function temporaryFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), "throneside-cli-"));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}
