import { spawn } from "node:child_process";
import { createHash } from "node:crypto";
import { once } from "node:events";
import { mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { build } from "vite";
import { afterAll, beforeAll, expect, test } from "vitest";
import { readArchiveName } from "../../../electron/backup/archiveName.ts";
import { BackupFolder } from "../../../electron/backup/backupFolder.ts";
import { isPartName } from "../../../electron/files/wholeFile.ts";
import { freshFolder } from "../tempFolder.ts";

/** How often the writer is killed; each time somewhere else in its work. */
const KILLS = 40;
const SEED = 20261126;

let built = "";
beforeAll(async () => {
  built = mkdtempSync(join(tmpdir(), "throneside-writer-"));
  await build({
    configFile: false,
    logLevel: "error",
    build: { ssr: resolve(import.meta.dirname, "archiveWriter.ts"), outDir: built, emptyOutDir: false },
    ssr: { noExternal: true },
  });
});
afterAll(() => rmSync(built, { recursive: true }));

const folder = freshFolder();
const writer = () => join(built, "archiveWriter.js");

/** Numbers between 0 and 1 that are the same in every run (Park and Miller's generator, 1988). */
function chances(seed: number): () => number {
  let state = seed % 2147483647;
  return () => {
    state = (state * 48271) % 2147483647;
    return state / 2147483647;
  };
}

function isWhole(name: string): boolean {
  const bytes = readFileSync(join(folder.path, name));
  const sum = createHash("sha256").update(bytes.subarray(0, -32)).digest();
  return sum.equals(bytes.subarray(-32));
}

test(`killed ${KILLS} times, no archive is half`, { timeout: 120_000 }, async () => {
  const chance = chances(SEED);
  let killedInside = 0;
  let told = "";
  for (let kill = 0; kill < KILLS; kill++) {
    const child = spawn(process.execPath, [writer(), folder.path, "65536", "24"]);
    child.stdout.setEncoding("utf8").on("data", (text: string) => {
      told += text;
    });
    await once(child.stdout, "data");
    // Anywhere in the few milliseconds that one archive takes.
    await new Promise((waited) => setTimeout(waited, chance() * 25));
    child.kill("SIGKILL");
    await once(child, "close");

    const names = readdirSync(folder.path);
    if (names.some(isPartName)) killedInside++;
    const archives = names.filter((name) => readArchiveName(name) !== undefined);
    expect(archives.length).toBeGreaterThan(0);
    expect(archives.filter((name) => !isWhole(name))).toEqual([]);
    // The newest that was said to be saved is there, whatever the rotation was doing.
    const said = told.trim().split("\n").at(-1) ?? "";
    expect(archives.some((name) => name >= said)).toBe(true);
  }
  // Else the kills would prove nothing.
  expect(killedInside).toBeGreaterThan(KILLS / 4);
});

test("what the killed left behind is taken away a day later, and nothing else is", async () => {
  const child = spawn(process.execPath, [writer(), folder.path, "65536", "24"]);
  await once(child.stdout, "data");
  child.kill("SIGKILL");
  await once(child, "close");
  const before = readdirSync(folder.path).filter((name) => !isPartName(name));

  const dayMs = 86_400_000;
  expect(await new BackupFolder(folder.path, () => new Date(Date.now() + 2 * dayMs)).rotate()).toBeNull();
  expect(readdirSync(folder.path)).toEqual(before);
});

test.skipIf(process.platform === "win32")(
  "a disk that is full is told, and nothing half is left",
  async () => {
    // The system lets this process write no file longer than 64 kB.
    const child = spawn("/bin/sh", [
      "-c",
      'ulimit -f 128; exec "$0" "$@"',
      process.execPath,
      writer(),
      folder.path,
    ]);
    let told = "";
    child.stdout.setEncoding("utf8").on("data", (text: string) => {
      told += text;
    });
    const [code] = await once(child, "close");
    expect(told).toMatch(/^throneside-000001-\S+ was not saved: there is no room left\./);
    expect(code).toBe(3);
    expect(readdirSync(folder.path)).toEqual([]);
  },
);
