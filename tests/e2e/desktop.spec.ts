/** The page in a real browser with the desktop shell around it: files leave and come through the shell's own door. */
import { createHash } from "node:crypto";
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { gunzipSync } from "node:zlib";
import { expect } from "@playwright/test";
import { grooveById } from "../../engine/catalogue/index.ts";
import { readArchive, readSmf } from "../../engine/formats/index.ts";
import { expectClean } from "./clean.ts";
import { grooveFile } from "./midiFile.ts";
import { test as base } from "./quietTest.ts";
import { openReport } from "./reportOpened.ts";
import { joinRoom } from "./roomJoined.ts";
import { ShellAround } from "./shellDoor.ts";
import { addStudent, rowsOf, waitForStoredStrikes } from "./studioPages.ts";
import { turnTo } from "./turnTo.ts";

const test = base.extend<{ readonly shell: ShellAround }>({
  shell: async ({ page }, use) => {
    const shell = new ShellAround();
    await shell.around(page);
    await use(shell);
    await shell.close();
  },
});

test("a groove is saved where the shell's dialog says, whole, and told by that name", async ({
  page,
  shell,
}) => {
  await openReport(page, { id: "shuffle", name: "Shuffle" }, { bars: 12, tempoBpm: 120 });
  shell.saveTo.push(join(shell.folder, "mine.mid"));
  await page.keyboard.press("o");
  const groove = page.getByRole("group", { name: "The groove" });
  await groove.getByRole("menuitem", { name: "MIDI file", exact: false }).click();
  await expect(page.getByText("Saved: mine.mid")).toBeVisible();
  expect(readdirSync(shell.folder)).toEqual(["mine.mid"]);
  const { events, tempos } = readSmf(readFileSync(join(shell.folder, "mine.mid")));
  const strokes = events.filter(({ message }) => message.kind === "note-on" && message.velocity > 0);
  // Its MIDI file has the bar four times.
  expect(strokes).toHaveLength(4 * (grooveById("shuffle")?.notes.length ?? 0));
  expect(tempos[0]?.tempoBpm).toBeCloseTo(120, 3);

  // A folder that is gone is told in the shell's words.
  shell.saveTo.push(join(shell.folder, "gone", "mine.mid"));
  await page.keyboard.press("o");
  await groove.getByRole("menuitem", { name: "MIDI file", exact: false }).click();
  await expect(page.getByRole("alert").getByText("mine.mid was not saved")).toBeVisible();
});

test("MIDI files opened from the shell's menu come onto the Shelf", async ({ page, shell }) => {
  await page.goto("./#/kit");
  await expect(page.getByRole("heading", { level: 1, name: "Kit" })).toBeVisible();
  const path = join(shell.folder, "mill samba.mid");
  writeFileSync(path, grooveFile("samba", { bars: 8, tempoBpm: 100 }));
  // The page hears the menu once it has settled in. It is chosen again only until it was heard, so that the file comes once.
  shell.opened.push([path]);
  await expect
    .poll(async () => {
      if (shell.opened.length > 0) await shell.choose(page, "open-midi");
      return shell.opened.length;
    })
    .toBe(0);
  await expect(page).toHaveURL(/#\/shelf$/);
  await expect(page.getByText("1 of 1 files were read.")).toBeVisible();
});

test("the studio is backed up into the folder that is chosen, and the archive is whole", async ({
  page,
  shell,
}) => {
  const backups = join(shell.folder, "backups");
  mkdirSync(backups);
  await page.goto("./#/kit");
  await expect(page.getByRole("heading", { level: 1, name: "Kit" })).toBeVisible();
  await expect
    .poll(async () => {
      await shell.choose(page, "show-backups");
      return page.url();
    })
    .toMatch(/#\/studio$/);
  shell.opened.push([backups]);
  await page.getByRole("button", { name: "Choose the folder" }).click();
  await expect(page.getByText(`After every lesson an archive is put into ${backups}.`)).toBeVisible();
  await page.getByRole("button", { name: "Put one there now" }).click();
  await expect(page.getByText("There are 1, the newest of")).toBeVisible();

  const [name = ""] = readdirSync(backups);
  expect(name).toMatch(/^throneside-000001-\d{4}-\d\d-\d\d\.gz$/);
  const digest = async (bytes: Uint8Array) => new Uint8Array(createHash("sha256").update(bytes).digest());
  async function* bytes(): AsyncGenerator<Uint8Array> {
    yield new Uint8Array(gunzipSync(readFileSync(join(backups, name))));
  }
  // It throws where the archive is not whole, or not as it was written.
  const pieces: string[] = [];
  for await (const { kind } of readArchive(bytes(), digest)) pieces.push(kind);
  expect(pieces[0]).toBe("head");
  expect(pieces.at(-1)).toBe("end");
});

test("a page that fell in the middle of a lesson goes on with it by itself; after the lesson an archive is in the folder", async ({
  page,
  shell,
}) => {
  const backups = join(shell.folder, "backups");
  mkdirSync(backups);
  shell.opened.push([backups]);
  await page.goto("./#/studio");
  await page.getByRole("button", { name: "Choose the folder" }).click();
  await expect(page.getByText(`After every lesson an archive is put into ${backups}.`)).toBeVisible();
  await addStudent(page, "Ottilie");
  await page.getByRole("button", { name: "Begin a lesson" }).click();
  await expect(page.getByText(/running, under a minute\. 0 takes, 0 strikes/)).toBeVisible();
  await page.keyboard.press("KeyF");
  await page.keyboard.press("KeyF");
  await expect.poll(() => shell.blockers).toBe(1);
  await waitForStoredStrikes(page, 2);
  await expect.poll(async () => (await rowsOf(page, "lessons")).length).toBe(1);

  // The shell opens a page that fell again, in the same window and at the same address.
  await page.reload();
  await expect(page.getByText(/running, under a minute\. 0 takes, 2 strikes/)).toBeVisible();
  await expect(page.getByRole("button", { name: "Go on with it" })).toHaveCount(0);
  await page.keyboard.press("KeyF");
  await expect(page.getByText(/0 takes, 3 strikes/)).toBeVisible();
  expect(shell.blockers).toBe(1);
  expect(readdirSync(backups)).toEqual([]);

  await page.getByRole("button", { name: "End the lesson" }).click();
  await expect.poll(() => shell.blockers).toBe(0);
  await expect.poll(() => readdirSync(backups).filter((name) => name.endsWith(".gz"))).toHaveLength(1);
  await expect
    .poll(async () => (await rowsOf(page, "lessons")).map(({ hits, endedAt }) => [hits, endedAt !== null]))
    .toEqual([[3, true]]);
});

test("a window that was opened anew asks before it goes on with a lesson that was broken off", async ({
  page,
  context,
}) => {
  await addStudent(page, "Bram");
  await page.getByRole("button", { name: "Begin a lesson" }).click();
  await expect(page.getByRole("button", { name: "End the lesson" })).toBeVisible();
  await page.keyboard.press("KeyF");
  await expect.poll(async () => (await rowsOf(page, "lessons")).length).toBe(1);
  // The window is gone, and all it had in mind.
  await page.close();
  const anew = await context.newPage();
  const other = new ShellAround();
  await other.around(anew);
  await anew.goto("./#/desk");
  await expect(anew.getByRole("button", { name: "Go on with it" })).toBeVisible();
  expect(other.blockers).toBe(0);
  await other.close();
});

test("a room is opened here, read out, joined by another page, and closed again", async ({
  page,
  shell,
  browser,
}) => {
  await page.goto("./#/kit/room");
  await page.getByRole("textbox", { name: "Name of the new room" }).fill("Millrace");
  await page.getByRole("button", { name: "Open a room here" }).click();
  const told = page.getByText(/^The room Millrace is open at /);
  await expect(told).toBeVisible();
  await expectClean(page);
  const [, address = "", code = ""] =
    /at ws:\/\/(\S+), code (\S+)\.$/.exec((await told.textContent()) ?? "") ?? [];
  expect(address).toMatch(/^127\.0\.0\.1:\d+$/);
  expect(code).toMatch(/^[2-9B-Z]{4}-[2-9B-Z]{4}-[2-9B-Z]{4}$/);

  // Somebody else, in a browser without a shell, by what was read out.
  const other = await (await browser.newContext()).newPage();
  await other.goto("./#/kit/room");
  const read = { address, room: "Millrace", code };
  await joinRoom(other, { name: "Bram", ...read });
  await expect(other.getByText("Nobody else yet.")).toBeVisible();
  // The one who opened it joins like everybody; what has to be read out to a third stays there.
  await joinRoom(page, { name: "Noor", ...read });
  await expect(page.getByRole("rowheader", { name: "Bram" })).toBeVisible();
  await expect(other.getByRole("rowheader", { name: "Noor" })).toBeVisible();
  await expect(told).toBeVisible();
  await expectClean(page);
  await turnTo(page, "#/kit");
  await turnTo(page, "#/kit/room");
  await expect(told).toBeVisible();

  await page.getByRole("button", { name: "Close the room" }).click();
  await expect(page.getByText("In no room.")).toBeVisible();
  await expect(page.getByRole("button", { name: "Open a room here" })).toBeVisible();
  await expect(other.getByText("The room broke off.")).toBeVisible();
  expect(shell.roomsOpened).toBe(1);
  await other.context().close();
});
