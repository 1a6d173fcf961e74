import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { chosenPlace } from "../../../electron/files/chosenPlace.ts";
import { freshFolder } from "../tempFolder.ts";

const folder = freshFolder();
const wanted = { name: "Shuffle, take.mid", kindName: "MIDI file", ending: "mid" };

/** Where the file goes when the dialog gives `path`. */
const placeFor = (path: string | undefined) => chosenPlace(wanted, folder.path, { save: async () => path });

describe("the place for a file", () => {
  test("is what was chosen", async () => {
    const path = join(folder.path, "mine.MID");
    expect(await placeFor(path)).toEqual({ kind: "chosen", path });
  });

  test("a closed dialog is no failure", async () => {
    expect(await placeFor(undefined)).toEqual({ kind: "put-down" });
  });

  test("an ending that was left out is added", async () => {
    const path = join(folder.path, "mine");
    expect(await placeFor(path)).toEqual({ kind: "chosen", path: `${path}.mid` });
  });

  test("but not so that a file nobody was asked about is written over", async () => {
    const path = join(folder.path, "mine");
    writeFileSync(`${path}.mid`, "older");
    expect(await placeFor(path)).toEqual({
      kind: "failed",
      reason: expect.stringContaining("mine.mid is there already"),
    });
  });

  test.each([
    ["../../.profile", ".profile"],
    ["..\\..\\start.bat", "start.bat"],
    ["/etc/passwd", "passwd"],
  ])("the page's name %s does not lead the dialog out of its folder", async (name, last) => {
    let begins: string | undefined;
    const save = async (options: { defaultPath?: string }) => {
      begins = options.defaultPath;
      return undefined;
    };
    await chosenPlace({ ...wanted, name }, folder.path, { save });
    expect(begins).toBe(join(folder.path, last));
  });
});
