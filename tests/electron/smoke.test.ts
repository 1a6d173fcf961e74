/**
 * The real shell, where its binary is: what no fake can show. Elsewhere each test is skipped, with the reason in its
 * name. It needs the built program, as `npm test` makes it.
 */
import { spawn } from "node:child_process";
import { once } from "node:events";
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { type ElectronApplication, _electron as electron, type Page } from "@playwright/test";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { DOOR_NAMES } from "../../engine/records/index.ts";
import { findDesktop } from "../../scripts/desktop.mjs";

const root = resolve(import.meta.dirname, "../..");
const desktop = findDesktop({
  folder: join(root, "node_modules", "electron"),
  platform: process.platform,
  env: process.env,
  userId: process.getuid?.(),
});
const isBuilt = existsSync(join(root, "dist", "electron", "main.js"));
const missing = desktop.path === undefined ? desktop.missing : isBuilt ? undefined : "dist/ is not built";
const { path = "" } = desktop;
const ARCHIVE = "throneside-000001-2026-11-26.zip";

describe.skipIf(missing !== undefined)(
  `the real shell${missing === undefined ? "" : ` (skipped: ${missing})`}`,
  () => {
    let folder = "";
    let app: ElectronApplication;
    let page: Page;
    const args = () => [root, `--user-data-dir=${folder}`];

    beforeAll(async () => {
      folder = mkdtempSync(join(tmpdir(), "throneside-smoke-"));
      writeFileSync(join(folder, ARCHIVE), "0123456789");
      writeFileSync(join(folder, "shell.json"), JSON.stringify({ version: 1, backupFolder: folder }));
      app = await electron.launch({ executablePath: path, args: args() });
      page = await app.firstWindow();
      await page.waitForLoadState("load");
    });
    afterAll(async () => {
      await app?.close();
      rmSync(folder, { recursive: true, force: true });
    });

    test("shows the first page over app://, in a secure place with MIDI", async () => {
      expect(page.url()).toMatch(/^app:\/\/throneside\//);
      const seen = await page.evaluate(() => ({
        isSecure: window.isSecureContext,
        hasMidi: "requestMIDIAccess" in navigator,
        hasRoot: document.getElementById("root")?.childElementCount !== 0,
      }));
      expect(seen).toEqual({ isSecure: true, hasMidi: true, hasRoot: true });
    });

    test("its page has the door, and nothing of Node or Electron", async () => {
      const seen = await page.evaluate(() => ({
        door: Object.keys(Reflect.get(window, "throneside")).sort(),
        leaks: ["require", "process", "module", "Buffer", "electron", "ipcRenderer"].filter(
          (name) => name in window,
        ),
      }));
      expect(seen).toEqual({ door: [...DOOR_NAMES, "onCommand", "platform"].sort(), leaks: [] });
    });

    test("its page runs in Chromium's sandbox", async () => {
      const { pid, sandboxed } = await app.evaluate(({ app: shell, BrowserWindow }) => {
        const id = BrowserWindow.getAllWindows()[0]?.webContents.getOSProcessId() ?? 0;
        const metric = shell.getAppMetrics().find((each) => each.pid === id);
        return { pid: id, sandboxed: metric?.sandboxed };
      });
      // Electron tells it on macOS and Windows; Linux itself does: 2 is a filter on all that the process may ask for.
      if (process.platform === "linux")
        expect(readFileSync(`/proc/${pid}/status`, "utf8")).toMatch(/^Seccomp:\s*2$/m);
      else expect(sandboxed).toBe(true);
    });

    test("nothing is fetched from elsewhere, and no page elsewhere is gone to", async () => {
      const fetched = await page.evaluate(() =>
        fetch("http://127.0.0.1:9/").then(
          () => "fetched",
          () => "stopped",
        ),
      );
      expect(fetched).toBe("stopped");
      const opened = await page.evaluate(() => window.open("https://example.org/") === null);
      expect(opened).toBe(true);
    });

    test("a question through the door is answered, a wrong one refused", async () => {
      const ask = (asked: unknown) =>
        page.evaluate(
          (question) =>
            Reflect.get(window, "throneside")
              .keepAwake(question)
              .catch((error: Error) => error.message),
          asked,
        );
      expect(await ask({ on: true })).toEqual({ kind: "awake" });
      expect(await ask({ on: false })).toEqual({ kind: "may-sleep" });
      expect(await ask({ on: "yes" })).toContain("not understood");
    });

    test("bytes go through the door both ways", async () => {
      const seen = await page.evaluate(async (name) => {
        const door = Reflect.get(window, "throneside");
        const read = await door.readBackup({ name, fromByte: 2, bytes: 4 });
        const id = "6f1c3c0e-3b52-4c5e-9f57-0d6d5b8b4a11";
        const added = await door.addToWriting({ id, bytes: Uint8Array.of(1, 2) });
        return {
          read: new TextDecoder().decode(read.bytes),
          isBytes: read.bytes instanceof Uint8Array,
          added,
        };
      }, ARCHIVE);
      // Nothing of that id is being written: but the question was understood.
      expect(seen).toMatchObject({ read: "2345", isBytes: true, added: { kind: "failed" } });
    });

    test("a page that crashes comes back at the same route", async () => {
      await page.evaluate(() => {
        window.location.hash = "#/shelf";
        // What the page knows again that it was in a lesson by.
        sessionStorage.setItem("before", "crash");
      });
      const came = await app.evaluate(async ({ BrowserWindow }) => {
        const [book] = BrowserWindow.getAllWindows();
        if (!book) throw new Error("There is no window.");
        const again = new Promise<string>((settle) => {
          book.webContents.once("did-finish-load", () => settle(book.webContents.getURL()));
        });
        book.webContents.forcefullyCrashRenderer();
        return again;
      });
      expect(came).toMatch(/^app:\/\/throneside\/.*#\/shelf$/);
      const kept = await app.evaluate(({ BrowserWindow }) =>
        BrowserWindow.getAllWindows()[0]?.webContents.executeJavaScript('sessionStorage.getItem("before")'),
      );
      expect(kept).toBe("crash");
    });

    test("a second start ends at once, and well", async () => {
      const second = spawn(path, args());
      const [code] = await once(second, "exit");
      expect(code).toBe(0);
      expect(await app.evaluate(({ BrowserWindow }) => BrowserWindow.getAllWindows().length)).toBe(1);
    });
  },
);
