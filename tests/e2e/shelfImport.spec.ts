/** MIDI files onto the Shelf: chosen, dropped, a folder of them; failures with their reasons; cancelled; full. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { expect, type Locator, type Page } from "@playwright/test";
import { STYLES } from "../../engine/catalogue/index.ts";
import { usualTempo } from "../../engine/score/index.ts";
import { expectClean } from "./clean.ts";
import { grooveFile } from "./midiFile.ts";
import { test } from "./quietTest.ts";

const button = (page: Page, name: string): Locator => page.getByRole("button", { name, exact: true });
const rows = (page: Page): Locator => page.getByRole("listbox", { name: "On the Shelf" }).getByRole("option");
const line = (page: Page): Locator => page.getByRole("searchbox", { name: "Find on the Shelf" });

const samba = grooveFile("samba", { bars: 8, tempoBpm: 100 });
const letter = Buffer.from("Dear drummer");

let folder = "";
test.beforeEach(async ({ page }) => {
  folder = mkdtempSync(join(tmpdir(), "throneside-shelf-"));
  await page.goto("./#/shelf");
  await button(page, "Import MIDI files").click();
  await expect(page.getByRole("heading", { level: 1, name: "Import MIDI files" })).toBeVisible();
});
test.afterEach(() => rmSync(folder, { recursive: true }));

/** Files in a folder of this computer, by their paths in it. */
function laidOut(files: Readonly<Record<string, Buffer>>): string {
  const root = join(folder, "mill");
  for (const [path, bytes] of Object.entries(files)) {
    mkdirSync(dirname(join(root, path)), { recursive: true });
    writeFileSync(join(root, path), bytes);
  }
  return root;
}

async function choose(
  page: Page,
  name: string,
  paths: string | readonly { name: string; mimeType: string; buffer: Buffer }[],
) {
  const chooser = page.waitForEvent("filechooser");
  await button(page, name).click();
  await (await chooser).setFiles(typeof paths === "string" ? paths : [...paths]);
}

const midi = (name: string, buffer: Buffer) => ({ name, mimeType: "audio/midi", buffer });

test("files that are chosen: what comes round is kept under the file's name, what cannot be read is told with its reason", async ({
  page,
}) => {
  await expectClean(page);
  await choose(page, "Choose files", [
    midi("mill_wheel.mid", samba),
    midi("letter.mid", letter),
    midi("cut.mid", samba.subarray(0, samba.length - 40)),
  ]);
  await expect(page.getByText("1 groove was kept.")).toBeVisible();
  const failures = page.getByRole("list", { name: "Not imported, and why" }).getByRole("listitem");
  await expect(failures).toHaveCount(2);
  await expect(failures.filter({ hasText: "letter.mid" })).toContainText("does not begin with MThd");
  await expect(failures.filter({ hasText: "cut.mid" })).toContainText("cut off");
  await expectClean(page);
  await page.keyboard.press("Escape");
  await line(page).fill("mill wheel");
  await expect(rows(page)).toHaveCount(1);
  await page.keyboard.press("Enter");
  await expect(page.getByText(/imported from mill_wheel\.mid, bar 1/)).toBeVisible();
  await expect(page.getByText(/^groove · (2|4)\/4 · \d bars? /)).toBeVisible();
});

test("the same file again is not kept twice; another of the same name gets a number", async ({ page }) => {
  const bossa = grooveFile("bossa-nova", { bars: 8, tempoBpm: 130 });
  const root = laidOut({ "monday/one.mid": samba, "tuesday/one.mid": bossa, "notes.txt": letter });
  await choose(page, "Choose a folder", root);
  await expect(page.getByText("2 grooves were kept. 1 other file was passed over.")).toBeVisible();
  await choose(page, "Choose a folder", root);
  await expect(page.getByText("0 grooves were kept.")).toBeVisible();
  await expect(page.getByText('It is on the Shelf already, as "one, 2".')).toBeVisible();
  await page.keyboard.press("Escape");
  await line(page).fill("one");
  await expect(rows(page).filter({ hasText: /^one/ })).toHaveCount(2);
});

test("a folder that is dropped on the list is imported, with all that is in it", async ({ page }) => {
  await page.keyboard.press("Escape");
  await expect(rows(page).first()).toBeVisible();
  await page.evaluate(
    (bytes) => {
      const file = new File([new Uint8Array(bytes)], "wheel.mid");
      const fileEntry = {
        isFile: true,
        isDirectory: false,
        fullPath: "/mill/wheel.mid",
        file: (done: (file: File) => void) => done(file),
      };
      const portions = [[fileEntry], []];
      const folderEntry = {
        isFile: false,
        isDirectory: true,
        fullPath: "/mill",
        createReader: () => ({ readEntries: (done: (entries: unknown) => void) => done(portions.shift()) }),
      };
      const drop = new DragEvent("drop", { bubbles: true, cancelable: true });
      const items = [{ webkitGetAsEntry: () => folderEntry, getAsFile: () => null }];
      Object.defineProperty(drop, "dataTransfer", { value: { items } });
      window.dispatchEvent(drop);
    },
    [...samba],
  );
  await expect(page.getByText("1 groove was kept.")).toBeVisible();
  await page.keyboard.press("Escape");
  await line(page).fill("wheel");
  await expect(rows(page)).toHaveCount(1);
});

test("cancelled, what was kept is whole and counted, and the rest comes with the next try", async ({
  page,
}) => {
  const files = Object.fromEntries(
    Array.from({ length: 240 }, (_, index) => {
      const style = STYLES[index % STYLES.length];
      const groove = style?.variants[0];
      const tempoBpm = groove ? usualTempo(groove) : 100;
      return [`take ${index}.mid`, grooveFile(style?.id ?? "", { bars: 16, tempoBpm })];
    }),
  );
  // The files behind these are never handed over: it cannot be over before it is cancelled.
  await page.evaluate(() => {
    const { arrayBuffer } = Blob.prototype;
    let asked = 0;
    Blob.prototype.arrayBuffer = function () {
      asked += 1;
      return asked > 40 ? new Promise(() => {}) : arrayBuffer.call(this);
    };
  });
  await choose(page, "Choose a folder", laidOut(files));
  await expect(page.getByText(/^[1-9]\d* of 240 files read\.$/)).toBeVisible();
  await button(page, "Cancel").click();
  const said = page.getByText(/^Cancelled: (\d+) grooves? (was|were) kept, each of them whole\.$/);
  await expect(said).toBeVisible();
  const kept = Number(/\d+/.exec((await said.textContent()) ?? "")?.[0]);
  expect(kept).toBeLessThan(240);
  await page.reload();
  await page.getByRole("button", { name: /Whose$/ }).click();
  await page.getByRole("option", { name: "our own" }).click();
  await expect(
    page.getByText(kept === 0 ? /Nothing on the Shelf/ : new RegExp(`^${kept} of \\d+ entries`)),
  ).toBeVisible();
});

test("when there is no more room, the import ends, says so, and what was kept stays", async ({ page }) => {
  await page.evaluate(() => {
    const put = IDBObjectStore.prototype.put;
    let count = 0;
    IDBObjectStore.prototype.put = function (...args) {
      count += 1;
      if (count > 2) throw new DOMException("The disk is full.", "QuotaExceededError");
      return put.apply(this, args);
    };
  });
  await choose(
    page,
    "Choose files",
    Array.from({ length: 6 }, (_, index) => midi(`take ${index}.mid`, samba)),
  );
  await expect(page.getByRole("alert")).toContainText("There is no room left on this computer");
  await expect(page.getByText("2 grooves were kept.")).toBeVisible();
  await page.reload();
  await line(page).fill("take");
  await expect(rows(page)).toHaveCount(2);
});
