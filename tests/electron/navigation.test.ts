import { EventEmitter } from "node:events";
import { readFileSync } from "node:fs";
import { resolve } from "node:path";
import { describe, expect, test } from "vitest";
import { guardNavigation } from "../../electron/navigation.ts";
import { wallName, wallOptions } from "../../electron/wall.ts";

type Guarded = Parameters<typeof guardNavigation>[0];
type OpenHandler = Parameters<Guarded["setWindowOpenHandler"]>[0];

/** The contents of a window that never was: they pass events on and keep the handler for new windows. */
function fakeContents() {
  const events = new EventEmitter();
  const kept: { open?: OpenHandler } = {};
  const contents = Object.assign(events, {
    setWindowOpenHandler: (handler: OpenHandler) => {
      kept.open = handler;
    },
  });
  guardNavigation(contents as unknown as Guarded, () => wallOptions("/preload.cjs", [], { id: 1 }));
  return { events, kept };
}

/** Whether the event `name` toward `url` is stopped. */
function isStopped(name: string, url: string): boolean {
  let stopped = false;
  const preventDefault = () => {
    stopped = true;
  };
  fakeContents().events.emit(name, { url, preventDefault });
  return stopped;
}

describe("where a window may go", () => {
  test.each([
    ["will-frame-navigate", "app://throneside/index.html", false],
    ["will-frame-navigate", "https://example.org/", true],
    ["will-frame-navigate", "file:///etc/passwd", true],
    ["will-frame-navigate", "app://elsewhere/", true],
    ["will-redirect", "app://throneside/", false],
    ["will-redirect", "https://example.org/", true],
    ["will-attach-webview", "app://throneside/", true],
  ])("%s to %s is stopped: %s", (name, url, stopped) => {
    expect(isStopped(name, url)).toBe(stopped);
  });

  /** What the page is answered when it opens `url` in a window called `frameName`. */
  function answerToOpen(url: string, frameName: string) {
    const details = { url, frameName, features: "", disposition: "new-window" };
    return fakeContents().kept.open?.(details as Parameters<OpenHandler>[0]);
  }

  test.each([
    ["app://throneside/", ""],
    ["app://throneside/", "_blank"],
    ["https://example.org/", wallName],
    ["about:blank", wallName],
    ["app://elsewhere/", wallName],
  ])("opening %s as %j is denied", (url, frameName) => {
    expect(answerToOpen(url, frameName)).toEqual({ action: "deny" });
  });

  test("the wall view opens, as shut in as the first window", () => {
    expect(answerToOpen("app://throneside/index.html#/wall", wallName)).toMatchObject({
      action: "allow",
      overrideBrowserWindowOptions: {
        webPreferences: {
          preload: "/preload.cjs",
          contextIsolation: true,
          sandbox: true,
          nodeIntegration: false,
        },
      },
    });
  });

  test("the page opens the wall under the name that is let through", () => {
    const opener = readFileSync(resolve(import.meta.dirname, "../../renderer/wall/openWall.ts"), "utf8");
    expect(opener).toContain(`"${wallName}"`);
  });
});
