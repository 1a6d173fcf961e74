import { IDBFactory, IDBKeyRange } from "fake-indexeddb";
import { describe, expect, test } from "vitest";
import type { LessonRecord } from "../../../engine/records/index.ts";
import {
  type ArchivePlace,
  backupReminder,
  keepArchive,
  noteBackup,
  StudioDatabase,
} from "../../../renderer/store/index.ts";

async function* blocks(count: number, thenFails = false): AsyncGenerator<Uint8Array<ArrayBuffer>> {
  for (let block = 0; block < count; block += 1) yield new Uint8Array(2 ** 20).fill(block);
  if (thenFails) throw new Error("The disk was pulled out.");
}

/** A place that keeps what is written, and says how it went. */
function place() {
  const written: number[] = [];
  const said: string[] = [];
  const picking: ArchivePlace = {
    pick: async (name) => ({
      name,
      createWritable: async () => ({
        write: async (content) => {
          written.push(content.length);
        },
        close: async () => {
          said.push("closed");
        },
        abort: async () => {
          said.push("given up");
        },
      }),
    }),
    download: (name, content) => {
      said.push(`${name} ${content.size}`);
    },
  };
  return { picking, written, said };
}

describe("keeping an archive in a browser", () => {
  test("it is written where the user says, block by block as it is made", async () => {
    const { picking, written, said } = place();
    expect(await keepArchive(blocks(3), "a.jsonl", picking)).toEqual({ kind: "saved", name: "a.jsonl" });
    expect(written).toEqual([2 ** 20, 2 ** 20, 2 ** 20]);
    expect(said).toEqual(["closed"]);
  });

  test("where no place can be asked for, it is handed over whole", async () => {
    const { picking, said } = place();
    const kept = await keepArchive(blocks(20), "a.jsonl", { ...picking, pick: undefined });
    expect(kept).toEqual({ kind: "handed-over", name: "a.jsonl" });
    expect(said).toEqual([`a.jsonl ${20 * 2 ** 20}`]);
  });

  test("a dialog that is closed keeps nothing, and is no failure", async () => {
    const { picking, written } = place();
    const pick = () => Promise.reject(new DOMException("", "AbortError"));
    expect(await keepArchive(blocks(1), "a.jsonl", { ...picking, pick })).toEqual({ kind: "put-down" });
    expect(written).toEqual([]);
  });

  test("what fails on the way is given up, and told", async () => {
    const { picking, said } = place();
    await expect(keepArchive(blocks(2, true), "a.jsonl", picking)).rejects.toThrow("pulled out");
    expect(said).toEqual(["given up"]);
  });
});

describe("when it is time for a backup", () => {
  const lesson: LessonRecord = {
    version: 1,
    id: "2026-03-10T15:30:00.000Z~a",
    studentIds: ["bram"],
    at: "2026-03-10T15:30:00.000Z",
    zone: "Europe/Vienna",
    day: "2026-03-10",
    endedAt: null,
    seconds: 60,
    rounds: 0,
    takes: 0,
    hits: 0,
    flags: 0,
  };

  test.each([
    ["without lessons never", null, false, { kind: "none" }],
    ["with lessons and no backup it is", null, true, { kind: "never" }],
    [
      "a backup after the last lesson is enough, however old",
      "2026-03-10T16:00:00.000Z",
      true,
      { kind: "none" },
    ],
    [
      "a week after a backup before the last lesson it is",
      "2026-03-10T08:00:00.000Z",
      true,
      { kind: "due", days: 22 },
    ],
  ])("%s", async (_, last, hasLesson, reminder) => {
    const data = new StudioDatabase("studio", { indexedDB: new IDBFactory(), IDBKeyRange });
    if (hasLesson) await data.lessons.put(lesson);
    if (last !== null) await noteBackup(data, last);
    expect(await backupReminder(data, "2026-04-01T08:00:00.000Z", "Europe/Vienna")).toEqual(reminder);
  });

  test("within the week it is not", async () => {
    const data = new StudioDatabase("studio", { indexedDB: new IDBFactory(), IDBKeyRange });
    await data.lessons.put(lesson);
    await noteBackup(data, "2026-03-09T08:00:00.000Z");
    expect(await backupReminder(data, "2026-03-15T08:00:00.000Z", "UTC")).toEqual({ kind: "none" });
    expect(await backupReminder(data, "2026-03-16T08:00:00.000Z", "UTC")).toEqual({ kind: "due", days: 7 });
  });
});
