import { expect, test } from "vitest";
import { fromDialogue, fromDrop } from "../../../../renderer/screens/shelf/import/chosenFiles.ts";

function chosen(name: string, webkitRelativePath = ""): File {
  return Object.defineProperty(new File(["x"], name), "webkitRelativePath", { value: webkitRelativePath });
}

test("single files are taken whatever their names, those of a folder when they are MIDI files, all in order", () => {
  const { files, passedOver } = fromDialogue([
    chosen("odd.bin"),
    chosen("b.MID", "mill/b.MID"),
    chosen("a.midi", "mill/loft/a.midi"),
    chosen("notes.txt", "mill/notes.txt"),
  ]);
  expect(files.map(({ path }) => path)).toEqual(["mill/b.MID", "mill/loft/a.midi", "odd.bin"]);
  expect(passedOver).toBe(1);
});

interface Tree {
  readonly [name: string]: Tree | "file";
}

/** A folder as a browser hands it over: its entries in portions of two. */
function entry(fullPath: string, content: Tree | "file"): unknown {
  if (content === "file") {
    const file = (done: (file: File) => void) => done(new File(["x"], fullPath));
    return { isFile: true, isDirectory: false, fullPath, file };
  }
  const children = Object.entries(content).map(([name, inner]) => entry(`${fullPath}/${name}`, inner));
  const createReader = () => {
    const left = [...children];
    return { readEntries: (done: (entries: readonly unknown[]) => void) => done(left.splice(0, 2)) };
  };
  return { isFile: false, isDirectory: true, fullPath, createReader };
}

test("of what is dropped, folders are read to the last file, however many portions they come in", async () => {
  const tree = {
    "1.mid": "file",
    "2.mid": "file",
    "3.mid": "file",
    loft: { "4.mid": "file", "b.txt": "file" },
    empty: {},
  } as const;
  const items = [
    { webkitGetAsEntry: () => entry("/mill", tree), getAsFile: () => null },
    { webkitGetAsEntry: () => null, getAsFile: () => new File(["x"], "alone.mid") },
    { webkitGetAsEntry: () => null, getAsFile: () => null },
  ];
  const { files, passedOver } = await fromDrop(items as unknown as readonly DataTransferItem[]);
  expect(files.map(({ path }) => path)).toEqual([
    "alone.mid",
    "mill/1.mid",
    "mill/2.mid",
    "mill/3.mid",
    "mill/loft/4.mid",
  ]);
  expect(passedOver).toBe(1);
  expect((await files[0]?.file())?.name).toBe("alone.mid");
});
