import { mkdirSync, symlinkSync, truncateSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { OpenDialogOptions } from "electron";
import { describe, expect, test } from "vitest";
import { openMidi } from "../../../electron/files/openMidi.ts";
import { freshFolder } from "../tempFolder.ts";

const folder = freshFolder();

/** Writes a file of the folder and gives its path. */
function put(path: string, content = "MThd"): string {
  const place = join(folder.path, ...path.split("/"));
  mkdirSync(join(place, ".."), { recursive: true });
  writeFileSync(place, content);
  return place;
}

const choosing = (...paths: string[]) => ({ open: async () => paths });

describe("single files", () => {
  test("are read, under their names", async () => {
    const answer = await openMidi({ from: "files" }, choosing(put("a/one.mid"), put("two.MIDI", "MTrk")));
    expect(answer).toEqual({
      kind: "chosen",
      files: [
        { path: "one.mid", bytes: new TextEncoder().encode("MThd") },
        { path: "two.MIDI", bytes: new TextEncoder().encode("MTrk") },
      ],
      leftOut: [],
      passedOver: 0,
    });
  });

  test("one that cannot be read is named, and the others come", async () => {
    const gone = join(folder.path, "gone.mid");
    const answer = await openMidi({ from: "files" }, choosing(gone, put("here.mid")));
    expect(answer).toMatchObject({
      files: [{ path: "here.mid" }],
      leftOut: [{ path: "gone.mid", reason: expect.stringContaining("gone.mid could not be read") }],
    });
  });

  test("one that is far too large is named, and not read", async () => {
    const large = put("large.mid");
    truncateSync(large, 17 * 2 ** 20);
    expect(await openMidi({ from: "files" }, choosing(large))).toMatchObject({
      files: [],
      leftOut: [{ path: "large.mid", reason: expect.stringContaining("larger than 16 MB") }],
    });
  });

  test.each([undefined, []])("a dialog that gives %j was closed", async (paths) => {
    expect(await openMidi({ from: "files" }, { open: async () => paths })).toEqual({ kind: "put-down" });
  });
});

describe("a folder", () => {
  test("is read with the folders in it, by the names of MIDI files", async () => {
    for (const path of ["mine/b.mid", "mine/a/one.smf", "mine/a/words.txt", "mine/a/deep/two.midi"])
      put(path);
    const answer = await openMidi({ from: "folder" }, choosing(join(folder.path, "mine")));
    if (answer.kind !== "chosen") throw new Error("Nothing was chosen.");
    expect(answer.files.map(({ path }) => path)).toEqual([
      "mine/a/deep/two.midi",
      "mine/a/one.smf",
      "mine/b.mid",
    ]);
    expect(answer.passedOver).toBe(1);
  });

  test("a link that leads round in a ring, or out, is not followed", async () => {
    put("mine/one.mid");
    put("outside/secret.mid");
    symlinkSync(join(folder.path, "mine"), join(folder.path, "mine", "round"));
    symlinkSync(join(folder.path, "outside"), join(folder.path, "mine", "out"));
    const answer = await openMidi({ from: "folder" }, choosing(join(folder.path, "mine")));
    expect(answer).toMatchObject({ files: [{ path: "mine/one.mid" }] });
    expect(answer).toHaveProperty("files.length", 1);
  });

  test("that is gone is told in words", async () => {
    const answer = await openMidi({ from: "folder" }, choosing(join(folder.path, "gone")));
    expect(answer).toEqual({
      kind: "failed",
      reason: expect.stringContaining("gone could not be opened"),
    });
  });
});

test.each([
  ["files", ["openFile", "multiSelections"]],
  ["folder", ["openDirectory"]],
] as const)("%s are asked for with the right dialog", async (from, properties) => {
  const asked: OpenDialogOptions[] = [];
  const open = async (options: OpenDialogOptions) => {
    asked.push(options);
    return undefined;
  };
  await openMidi({ from }, { open });
  expect(asked).toEqual([expect.objectContaining({ properties })]);
});
