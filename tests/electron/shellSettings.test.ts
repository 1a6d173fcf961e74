import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { readShellSettings, writeShellSettings } from "../../electron/shellSettings.ts";
import { freshFolder } from "./tempFolder.ts";

const folder = freshFolder();
const path = () => join(folder.path, "shell.json");
const settings = { version: 1, backupFolder: "/backups" } as const;

async function read() {
  const told: string[] = [];
  return { settings: await readShellSettings(path(), (sentence) => told.push(sentence)), told };
}

describe("what the shell remembers", () => {
  test("is nothing at first", async () => {
    expect(await read()).toEqual({ settings: { version: 1, backupFolder: null }, told: [] });
  });

  test("is read as it was written", async () => {
    await writeShellSettings(path(), settings);
    expect(await read()).toEqual({ settings, told: [] });
    expect(readdirSync(folder.path)).toEqual(["shell.json"]);
  });

  test.each(["", "{", "[]", '{"version":2,"backupFolder":"/x"}', '{"version":1,"backupFolder":7}'])(
    "%j is put aside, told, and not lost",
    async (text) => {
      writeFileSync(path(), text);
      const { settings: first, told } = await read();
      expect(first.backupFolder).toBeNull();
      expect(told).toEqual([expect.stringContaining("was not understood and lies aside in")]);
      expect(readFileSync(`${path()}.damaged`, "utf8")).toBe(text);
      expect((await read()).told).toEqual([]);
    },
  );

  test("a disk that does not answer is no first start", async () => {
    await expect(readShellSettings(folder.path, () => undefined)).rejects.toThrow("EISDIR");
  });
});
