import { EventEmitter } from "node:events";
import { describe, expect, test } from "vitest";
import { guardNavigation } from "../../electron/navigation.ts";

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
  guardNavigation(contents as unknown as Guarded);
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

  test("no page opens a window", () => {
    const details = { url: "app://throneside/", frameName: "", features: "", disposition: "new-window" };
    expect(fakeContents().kept.open?.(details as Parameters<OpenHandler>[0])).toEqual({ action: "deny" });
  });
});
