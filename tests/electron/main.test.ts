import { mkdirSync, mkdtempSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { channelOf } from "../../electron/door/channels.ts";
import { wallName } from "../../electron/wall.ts";
import type { FakeWindow } from "./fakeElectron.ts";

const { electronModule, fake } = await vi.hoisted(() => import("./fakeElectron.ts"));
vi.mock("electron", () => electronModule);

beforeEach(() => {
  vi.resetModules();
  fake.startAgain();
  fake.folder = mkdtempSync(join(tmpdir(), "throneside-shell-"));
  for (const name of ["userData", "documents"]) mkdirSync(join(fake.folder, name));
});
afterEach(() => rmSync(fake.folder, { recursive: true }));

/** The book's window, once its page is there. */
async function bookOpened(): Promise<FakeWindow> {
  await import("../../electron/main.ts");
  fake.app.becomeReady();
  return vi.waitFor(() => {
    const [book] = fake.windows;
    if (!book?.webContents.loaded.length) throw new Error("The book is not there yet.");
    return book;
  });
}

/** The menu's item of that label, without the "&" that marks its letter. */
function menuItem(label: string) {
  const item = fake.menu
    .flatMap(({ submenu }) => submenu ?? [])
    .find((each) => each.label?.replace("&", "") === label);
  if (!item?.click) throw new Error(`The menu has no item "${label}" to choose.`);
  return { choose: item.click };
}

describe("the start", () => {
  test("registers the scheme before Chromium is ready, and guards everything before the page is loaded", async () => {
    await import("../../electron/main.ts");
    expect(fake.log).toEqual(["scheme", "sandbox"]);
    fake.app.becomeReady();
    await vi.waitFor(() => expect(fake.log.at(-1)).toMatch("load"));
    expect(fake.log.slice(2)).toEqual([
      "handle app",
      "permission check",
      "permission request",
      "devices",
      "screen picture",
      "network",
      "spelling false",
      "window",
      "load app://throneside/",
    ]);
  });

  test("opens one window that is kept apart from Node", async () => {
    const book = await bookOpened();
    expect(fake.windows).toHaveLength(1);
    expect(book.options).toMatchObject({
      webPreferences: { contextIsolation: true, sandbox: true, nodeIntegration: false },
    });
  });

  test("guards the navigation of every page that is made", async () => {
    const book = await bookOpened();
    const events = book.webContents.eventNames();
    expect(events).toContain("will-frame-navigate");
    expect(events).toContain("will-attach-webview");
    expect(book.webContents.openHandler?.({ url: "https://example.org/", frameName: wallName })).toEqual({
      action: "deny",
    });
  });

  test("a second start ends at once", async () => {
    fake.app.isFirst = false;
    await import("../../electron/main.ts");
    expect(fake.log).toEqual(["quit"]);
  });

  test("a second start brings the book forward, even when the wall is there", async () => {
    const book = await bookOpened();
    menuItem("Show the wall").choose();
    await vi.waitFor(() => expect(fake.windows).toHaveLength(2));
    book.isSmall = true;
    fake.app.emit("second-instance");
    expect(fake.log.slice(-2)).toEqual(["restore", "focus 0"]);
  });
});

describe("the wall", () => {
  test("fills the second screen, wherever it stands", async () => {
    const book = await bookOpened();
    fake.displays.push({ id: 2, bounds: { x: -1280, y: 0, width: 1280, height: 720 } });
    const answer = book.webContents.openHandler?.({ url: "app://throneside/#/wall", frameName: wallName });
    expect(answer).toMatchObject({
      action: "allow",
      overrideBrowserWindowOptions: { x: -1280, width: 1280, height: 720, fullscreen: true },
    });
  });

  test("is a window of its own where there is one screen", async () => {
    const book = await bookOpened();
    const answer = book.webContents.openHandler?.({ url: "app://throneside/#/wall", frameName: wallName });
    expect(answer).not.toHaveProperty("overrideBrowserWindowOptions.fullscreen");
  });

  test("opens from the menu once, comes forward after that, and closes from the menu", async () => {
    await bookOpened();
    menuItem("Show the wall").choose();
    await vi.waitFor(() => expect(fake.log.at(-1)).toBe("load app://throneside/#/wall"));
    menuItem("Show the wall").choose();
    await vi.waitFor(() => expect(fake.log.at(-1)).toBe("focus 1"));
    menuItem("Close the wall").choose();
    expect(fake.windows.map(({ isClosed }) => isClosed)).toEqual([false, true]);
    menuItem("Show the wall").choose();
    await vi.waitFor(() => expect(fake.windows).toHaveLength(3));
  });

  test("one opened by the page takes the place of one opened from the menu", async () => {
    const book = await bookOpened();
    menuItem("Show the wall").choose();
    await vi.waitFor(() => expect(fake.windows).toHaveLength(2));
    const second = new electronModule.BrowserWindow({});
    book.webContents.emit("did-create-window", second, { frameName: wallName });
    expect(fake.windows.map(({ isClosed }) => isClosed)).toEqual([false, true, false]);
  });

  test("goes with the book", async () => {
    const book = await bookOpened();
    menuItem("Show the wall").choose();
    await vi.waitFor(() => expect(fake.windows).toHaveLength(2));
    book.close();
    expect(fake.windows[1]?.isClosed).toBe(true);
  });

  test("has a door that nobody answers", async () => {
    const book = await bookOpened();
    menuItem("Show the wall").choose();
    const wall = await vi.waitFor(() => {
      const [, second] = fake.windows;
      if (!second) throw new Error("The wall is not there yet.");
      return second;
    });
    const channel = channelOf("keepAwake");
    await expect(wall.webContents.ask(channel, { on: true })).rejects.toThrow("No handler");
    expect(await book.webContents.ask(channel, { on: true })).toEqual({ kind: "awake" });
  });
});

describe("a page that stops", () => {
  test("is opened again at the same address, the route kept", async () => {
    const book = await bookOpened();
    book.webContents.address = "app://throneside/index.html#/replay?lesson=12&at=61.5";
    book.webContents.emit("render-process-gone", {}, { reason: "crashed", exitCode: 139 });
    await vi.waitFor(() =>
      expect(book.webContents.loaded.at(-1)).toBe("app://throneside/index.html#/replay?lesson=12&at=61.5"),
    );
  });

  test("no longer keeps the screen on, and leaves no half of a file behind", async () => {
    const book = await bookOpened();
    await book.webContents.ask(channelOf("keepAwake"), { on: true });
    const documents = join(fake.folder, "documents");
    fake.saveAnswers.push({ canceled: false, filePath: join(documents, "Shuffle.mid") });
    const wanted = { place: "chosen", name: "Shuffle.mid", kindName: "MIDI file", ending: "mid" };
    expect(await book.webContents.ask(channelOf("beginWriting"), wanted)).toMatchObject({ kind: "begun" });
    expect(readdirSync(documents)).toHaveLength(1);
    expect(fake.blockers.size).toBe(1);
    book.webContents.emit("render-process-gone", {}, { reason: "oom", exitCode: 1 });
    expect(fake.blockers.size).toBe(0);
    await vi.waitFor(() => expect(readdirSync(documents)).toEqual([]));
  });

  test("a page that begins anew lets go too; a change of route does not", async () => {
    const book = await bookOpened();
    await book.webContents.ask(channelOf("keepAwake"), { on: true });
    book.webContents.emit("did-start-navigation", { isMainFrame: true, isSameDocument: true });
    expect(fake.blockers.size).toBe(1);
    book.webContents.emit("did-start-navigation", { isMainFrame: true, isSameDocument: false });
    expect(fake.blockers.size).toBe(0);
  });
});

test("the menu tells the page, and the page alone", async () => {
  const book = await bookOpened();
  menuItem("Backups…").choose();
  menuItem("Open MIDI files…").choose();
  expect(book.webContents.sent).toEqual([
    ["throneside:command", "show-backups"],
    ["throneside:command", "open-midi"],
  ]);
});

test("when the last window is closed the program ends", async () => {
  await bookOpened();
  fake.app.emit("window-all-closed");
  expect(fake.log.at(-1)).toBe("quit");
});
