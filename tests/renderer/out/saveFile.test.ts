import { describe, expect, test } from "vitest";
import {
  FILE_KINDS,
  type OutFile,
  type PickedFile,
  type PickPlace,
  type SavingPlace,
  saveFile,
} from "../../../renderer/out/saveFile.ts";

const FILE: OutFile = { name: "Shuffle, take.csv", kind: FILE_KINDS.csv, content: "voice\r\nkick\r\n" };

function failure(name: string): Error {
  return new DOMException("No.", name);
}

/** A disk with one file, as the File System standard has it: a write shows at close, and not at all when given up. */
class Disk {
  shown: string | null;
  failsAt: "open" | "write" | "close" | undefined;
  fails = failure("QuotaExceededError");
  isGivenUp = false;
  readonly asked: Parameters<PickPlace>[0][] = [];
  readonly downloads: { readonly name: string; readonly content: Blob }[] = [];

  constructor(shown: string | null) {
    this.shown = shown;
  }

  /** The dialog makes an empty file where none was. */
  readonly pick: PickPlace = async (asked) => {
    this.asked.push(asked);
    this.shown ??= "";
    return this.#picked();
  };

  place(pick: PickPlace | undefined): SavingPlace {
    return { pick, download: (name, content) => this.downloads.push({ name, content }) };
  }

  #picked(): PickedFile {
    let written = "";
    const failAt = (step: Disk["failsAt"]): void => {
      if (this.failsAt === step) throw this.fails;
    };
    return {
      name: "mine.csv",
      getFile: async () => ({ size: (this.shown ?? "").length }),
      remove: async () => {
        this.shown = null;
      },
      createWritable: async () => {
        failAt("open");
        return {
          write: async (content) => {
            failAt("write");
            written = await content.text();
          },
          close: async () => {
            failAt("close");
            this.shown = written;
          },
          abort: async () => {
            this.isGivenUp = true;
          },
        };
      },
    };
  }
}

describe("a place is chosen", () => {
  test("the file is written whole, and told by the name it was given", async () => {
    const disk = new Disk(null);
    expect(await saveFile(FILE, disk.place(disk.pick))).toEqual({ kind: "saved", name: "mine.csv" });
    expect(disk.shown).toBe("voice\r\nkick\r\n");
    expect(disk.downloads).toEqual([]);
    expect(disk.asked).toEqual([
      {
        suggestedName: "Shuffle, take.csv",
        types: [{ description: "Table, CSV", accept: { "text/csv": [".csv"] } }],
      },
    ]);
  });

  test("a closed dialog is no failure", async () => {
    const disk = new Disk(null);
    const closed = (): never => {
      throw failure("AbortError");
    };
    expect(
      await saveFile(
        FILE,
        disk.place(async () => closed()),
      ),
    ).toEqual({ kind: "put-down" });
    expect(disk.downloads).toEqual([]);
  });

  test("a browser that wants a fresh press for its dialog downloads instead", async () => {
    const disk = new Disk(null);
    const late = (): never => {
      throw failure("SecurityError");
    };
    expect(
      await saveFile(
        FILE,
        disk.place(async () => late()),
      ),
    ).toEqual({
      kind: "handed-over",
      name: "Shuffle, take.csv",
    });
    expect(disk.downloads).toHaveLength(1);
  });

  test.each(["open", "write", "close"] as const)(
    "when %s fails, what was there stays, and the reason is told",
    async (failsAt) => {
      const disk = new Disk("an older table");
      disk.failsAt = failsAt;
      expect(await saveFile(FILE, disk.place(disk.pick))).toEqual({
        kind: "failed",
        reason: "mine.csv was not saved: there is no room left. Make room, or choose another place.",
      });
      expect(disk.shown).toBe("an older table");
      expect(disk.isGivenUp).toBe(failsAt !== "open");
    },
  );

  test.each(["open", "write", "close"] as const)(
    "when %s fails, no empty file is left behind",
    async (failsAt) => {
      const disk = new Disk(null);
      disk.failsAt = failsAt;
      expect((await saveFile(FILE, disk.place(disk.pick))).kind).toBe("failed");
      expect(disk.shown).toBeNull();
    },
  );

  test.each([
    ["NotAllowedError", "writing there is not allowed"],
    ["NoModificationAllowedError", "another program holds it open"],
    ["NotFoundError", "its folder is gone"],
    ["OddError", "No."],
  ])("%s is said in words", async (name, words) => {
    const disk = new Disk("an older table");
    disk.failsAt = "close";
    disk.fails = failure(name);
    const saved = await saveFile(FILE, disk.place(disk.pick));
    expect(saved).toEqual({ kind: "failed", reason: expect.stringContaining(words) });
  });
});

describe("no place can be chosen", () => {
  test.each([
    ["text", "voice\r\nkick\r\n", "voice\r\nkick\r\n"],
    ["bytes", Uint8Array.from([77, 84, 104, 100]), "MThd"],
    ["a blob", new Blob(["dots"]), "dots"],
  ])("%s is handed over to the downloads", async (_, content, expected) => {
    const disk = new Disk(null);
    const saved = await saveFile({ ...FILE, content }, disk.place(undefined));
    expect(saved).toEqual({ kind: "handed-over", name: "Shuffle, take.csv" });
    expect(disk.downloads.map(({ name }) => name)).toEqual(["Shuffle, take.csv"]);
    expect(await disk.downloads[0]?.content.text()).toBe(expected);
  });
});
