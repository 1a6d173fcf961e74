import { randomUUID } from "node:crypto";
import { existsSync, readdirSync, utimesSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { archiveName } from "../../../electron/backup/archiveName.ts";
import { BackupFolder } from "../../../electron/backup/backupFolder.ts";
import { partName } from "../../../electron/files/wholeFile.ts";
import { freshFolder } from "../tempFolder.ts";

const folder = freshFolder();
const now = new Date(2026, 10, 26, 4, 59);
const backups = (clock = now) => new BackupFolder(folder.path, () => clock);

function put(name: string, content = ""): void {
  writeFileSync(join(folder.path, name), content);
}

describe("the archives", () => {
  test("are listed newest first by number, and nothing else is", async () => {
    put(archiveName(2, "2026-11-25", "zip"), "two");
    put(archiveName(10, "1970-01-01", "zip"), "ten");
    put("holiday.jpg");
    expect(await backups().archives()).toEqual([
      { name: "throneside-000010-1970-01-01.zip", number: 10, day: "1970-01-01", bytes: 3 },
      { name: "throneside-000002-2026-11-25.zip", number: 2, day: "2026-11-25", bytes: 3 },
    ]);
  });

  test.each([
    [[], "throneside-000001-2026-11-26.zip"],
    [[archiveName(41, "2099-01-01", "zip")], "throneside-000042-2026-11-26.zip"],
    [[archiveName(999_999, "2026-11-25", "zip")], "throneside-1000000-2026-11-26.zip"],
  ])("after %j comes %s", async (there, next) => {
    for (const name of there) put(name);
    expect(await backups().nextPath("zip")).toBe(join(folder.path, next));
  });

  test("a clock beyond every calendar still gives a name that is read again", async () => {
    put((await backups(new Date(20_000, 0, 1)).nextPath("zip")).slice(folder.path.length + 1));
    expect(await backups().archives()).toHaveLength(1);
  });
});

describe("rotation", () => {
  test("removes old archives of ours and never anything else", async () => {
    for (let number = 1; number <= 9; number++) put(archiveName(number, "2026-11-26", "zip"));
    put("holiday.zip");
    put(".throneside-notes");
    expect(await backups().rotate()).toBeNull();
    expect(readdirSync(folder.path).sort()).toEqual([
      ".throneside-notes",
      "holiday.zip",
      ...[7, 8, 9].map((number) => archiveName(number, "2026-11-26", "zip")),
    ]);
  });

  test.each([
    ["an hour ago", -1, true],
    ["two days ago", -48, false],
    ["in an hour, by a clock that has jumped", 1, true],
    ["in two days, by a clock that has jumped", 48, false],
  ])("half a file that was written %s stays: %s hours, %s", async (_, hours, stays) => {
    const name = partName(archiveName(1, "2026-11-26", "zip"), randomUUID());
    put(name);
    const at = now.getTime() / 1000 + hours * 3600;
    utimesSync(join(folder.path, name), at, at);
    await backups().rotate();
    expect(existsSync(join(folder.path, name))).toBe(stays);
  });

  test("a folder that is gone is told in words", async () => {
    const gone = new BackupFolder(join(folder.path, "gone"), () => now);
    expect(await gone.rotate()).toMatch(/^The archive is kept, but an old one could not be removed: /);
  });
});

describe("reading back", () => {
  const name = archiveName(1, "2026-11-26", "zip");

  test.each([
    [0, 4, "0123"],
    [8, 4, "89"],
    [10, 4, ""],
    [99, 4, ""],
  ])("from byte %i, %i bytes", async (fromByte, bytes, text) => {
    put(name, "0123456789");
    expect(await backups().read({ name, fromByte, bytes })).toEqual({
      kind: "read",
      bytes: new TextEncoder().encode(text),
      totalBytes: 10,
    });
  });

  test.each(["../secret", "holiday.zip", "/etc/passwd"])("%s is not read", async (other) => {
    put("holiday.zip");
    expect(await backups().read({ name: other, fromByte: 0, bytes: 4 })).toEqual({
      kind: "failed",
      reason: `${other} is no archive of this program.`,
    });
  });

  test("one that is gone is told in words", async () => {
    expect(await backups().read({ name, fromByte: 0, bytes: 4 })).toMatchObject({ kind: "failed" });
  });
});
