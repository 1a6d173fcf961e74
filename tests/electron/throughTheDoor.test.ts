/**
 * From the page's own functions through the door to the disk and back: the page's code, the preload script's door, the
 * main process's answers and real files. Only Electron itself is a fake: its dialogs, and the way between processes,
 * which copies as the real one does.
 */
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { beforeEach, describe, expect, test, vi } from "vitest";
import { Book } from "../../electron/book.ts";
import { doorName, doorOf } from "../../electron/door/door.ts";
import { RoomReach } from "../../electron/network.ts";
import { MOST_BYTES_AT_ONCE } from "../../engine/records/index.ts";
import { FILE_KINDS, type OutFile, saveFile } from "../../renderer/out/saveFile.ts";
import { backupPieces, type ShellDoor, shellDoorOf, writeThroughShell } from "../../renderer/shell/index.ts";
import { freshFolder } from "./tempFolder.ts";

const { electronModule, fake } = await vi.hoisted(() => import("./fakeElectron.ts"));
vi.mock("electron", () => electronModule);

const folder = freshFolder();
const documents = () => join(folder.path, "documents");
const backups = () => join(folder.path, "backups");
let page: object;
let door: ShellDoor;

beforeEach(async () => {
  fake.startAgain();
  fake.folder = folder.path;
  for (const name of ["userData", "documents", "backups"]) mkdirSync(join(folder.path, name));
  await new Book("/preload.cjs", new RoomReach()).open();
  page = { [doorName]: doorOf(process, { invoke: askBook, on: () => undefined, off: () => undefined }) };
  const there = shellDoorOf(page);
  if (!there) throw new Error("The page has no door.");
  door = there;
});

async function askBook(channel: string, asked: unknown): Promise<unknown> {
  const [book] = fake.windows;
  if (!book) throw new Error("There is no book.");
  return book.webContents.ask(channel, asked);
}

const place = () => ({ door, pick: undefined, download: () => expect.unreachable("It was downloaded.") });

function choosing(name: string): void {
  fake.saveAnswers.push({ canceled: false, filePath: join(documents(), name) });
}

async function chooseBackups(): Promise<void> {
  fake.openAnswers.push({ canceled: false, filePaths: [backups()] });
  expect(await door.ask("chooseBackupFolder", {})).toMatchObject({ kind: "folder", folder: backups() });
}

/** An archive of `pieces` pieces of `length` bytes, each filled with its own number. */
async function* archive(pieces: number, length: number): AsyncGenerator<Uint8Array> {
  for (let index = 0; index < pieces; index++) yield new Uint8Array(length).fill(index);
}

describe("a file that is saved", () => {
  const file: OutFile = {
    name: "Shuffle, take.mid",
    kind: FILE_KINDS.mid,
    content: Uint8Array.of(77, 84, 104, 100),
  };

  test("stands where the dialog said", async () => {
    choosing("mine.mid");
    expect(await saveFile(file, place())).toMatchObject({ kind: "saved", name: "mine.mid" });
    expect(readFileSync(join(documents(), "mine.mid"), "latin1")).toBe("MThd");
    expect(fake.asked).toEqual([
      expect.objectContaining({
        defaultPath: join(documents(), "Shuffle, take.mid"),
        filters: [{ name: "MIDI file", extensions: ["mid"] }],
      }),
    ]);
  });

  test("may be longer than what goes through at once, and text, and a blob", async () => {
    const text = "voice,lean\r\n".repeat(200_000);
    expect(text.length).toBeGreaterThan(2 * MOST_BYTES_AT_ONCE);
    for (const content of [text, new Blob([text])]) {
      choosing("mine.csv");
      const saved = await saveFile({ name: "mine.csv", kind: FILE_KINDS.csv, content }, place());
      expect(saved).toMatchObject({ kind: "saved" });
      expect(readFileSync(join(documents(), "mine.csv"), "utf8")).toBe(text);
    }
  });

  test("a closed dialog saves nothing and is no failure", async () => {
    fake.saveAnswers.push({ canceled: true, filePath: "" });
    expect(await saveFile(file, place())).toEqual({ kind: "put-down" });
    expect(readdirSync(documents())).toEqual([]);
  });

  test("a folder that is gone is told in words", async () => {
    choosing("gone/mine.mid");
    expect(await saveFile(file, place())).toEqual({
      kind: "failed",
      reason: expect.stringContaining("mine.mid was not saved: it is not there any more"),
    });
  });

  test("a shell that breaks off is told, and leaves nothing half", async () => {
    choosing("mine.mid");
    const breaking: ShellDoor = {
      ...door,
      ask: (name, asked) =>
        name === "endWriting" ? Promise.reject(new Error("The shell is gone")) : door.ask(name, asked),
    };
    const saved = await saveFile(file, { ...place(), door: breaking });
    expect(saved).toEqual({ kind: "failed", reason: expect.stringContaining("The shell is gone.") });
    expect(readdirSync(documents())).toEqual([]);
  });
});

describe("a backup", () => {
  const kept = { place: "backup", ending: "zip" } as const;

  test("without a folder is not written", async () => {
    expect(await writeThroughShell(door, kept, archive(1, 1))).toEqual({ kind: "no-folder" });
    expect(await door.ask("backups", {})).toEqual({ kind: "no-folder" });
  });

  test("is written piece by piece and read back the same", async () => {
    await chooseBackups();
    const progress: number[] = [];
    const written = await writeThroughShell(door, kept, archive(3, MOST_BYTES_AT_ONCE + 7), {
      onBytes: (bytes) => progress.push(bytes),
    });
    expect(written).toMatchObject({ kind: "saved", trouble: null });
    expect(progress).toHaveLength(6);
    expect(progress.at(-1)).toBe(3 * (MOST_BYTES_AT_ONCE + 7));

    const listed = await door.ask("backups", {});
    if (listed.kind !== "folder") throw new Error("There is no folder.");
    expect(listed.archives).toEqual([
      expect.objectContaining({ number: 1, bytes: 3 * (MOST_BYTES_AT_ONCE + 7) }),
    ]);
    const name = listed.archives[0]?.name ?? "";
    const pieces: Uint8Array[] = [];
    for await (const piece of backupPieces(door, name)) pieces.push(piece);
    expect(pieces.length).toBeGreaterThan(3);
    expect(Buffer.concat(pieces).equals(readFileSync(join(backups(), name)))).toBe(true);
    expect(Buffer.concat(pieces).filter((byte) => byte === 2)).toHaveLength(MOST_BYTES_AT_ONCE + 7);
  });

  test("takes its turn with the old ones", async () => {
    await chooseBackups();
    for (let time = 0; time < 6; time++) await writeThroughShell(door, kept, archive(1, 10));
    const numbers = readdirSync(backups()).map((name) => Number(name.slice(11, 17)));
    expect(numbers).toEqual([4, 5, 6]);
  });

  test("given up on the way leaves nothing", async () => {
    await chooseBackups();
    const giving = new AbortController();
    const written = await writeThroughShell(door, kept, archive(100, 1000), {
      signal: giving.signal,
      onBytes: (bytes) => bytes >= 3000 && giving.abort(),
    });
    expect(written).toEqual({ kind: "put-down" });
    expect(readdirSync(backups())).toEqual([]);
  });

  test("whose making fails leaves nothing, and says why", async () => {
    await chooseBackups();
    async function* failing(): AsyncGenerator<Uint8Array> {
      yield new Uint8Array(10);
      throw new Error("The database is closed.");
    }
    await expect(writeThroughShell(door, kept, failing())).rejects.toThrow("The database is closed.");
    expect(readdirSync(backups())).toEqual([]);
  });

  test("folder that was kept and is gone is told in words", async () => {
    await chooseBackups();
    const settings = join(folder.path, "userData", "shell.json");
    writeFileSync(settings, JSON.stringify({ version: 1, backupFolder: join(folder.path, "unplugged") }));
    expect(await door.ask("backups", {})).toEqual({
      kind: "failed",
      reason: expect.stringContaining("connect that"),
    });
    expect(await writeThroughShell(door, kept, archive(1, 1))).toMatchObject({ kind: "failed" });
  });

  test("folder that cannot be read is not kept", async () => {
    fake.openAnswers.push({ canceled: false, filePaths: [join(folder.path, "nowhere")] });
    expect(await door.ask("chooseBackupFolder", {})).toMatchObject({ kind: "failed" });
    expect(await door.ask("backups", {})).toEqual({ kind: "no-folder" });
  });
});

test("MIDI files come through whole", async () => {
  writeFileSync(join(documents(), "one.mid"), "MThd");
  fake.openAnswers.push({ canceled: false, filePaths: [join(documents(), "one.mid")] });
  expect(await door.ask("openMidi", { from: "files" })).toEqual({
    kind: "chosen",
    files: [{ path: "one.mid", bytes: new TextEncoder().encode("MThd") }],
    leftOut: [],
    passedOver: 0,
  });
});

test("the screen stays on while a lesson runs, once, however often it is asked", async () => {
  for (const on of [true, true]) expect(await door.ask("keepAwake", { on })).toEqual({ kind: "awake" });
  expect(fake.blockers.size).toBe(1);
  for (const on of [false, false]) expect(await door.ask("keepAwake", { on })).toEqual({ kind: "may-sleep" });
  expect(fake.blockers.size).toBe(0);
  expect(fake.log).toContain("block prevent-display-sleep");
});
