import type { BrowserWindowConstructorOptions } from "electron";

/** A window of the program, the book or the wall view. Its page is kept apart from Node and from the preload script's world, and sandboxed. */
export function windowOptions(preload: string): BrowserWindowConstructorOptions {
  return {
    title: "Throneside",
    width: 1280,
    height: 800,
    minWidth: 960,
    minHeight: 640,
    // The paper of the light theme, so that the window does not flash white before the page is there.
    backgroundColor: "#f4efe4",
    webPreferences: {
      preload,
      contextIsolation: true,
      sandbox: true,
      nodeIntegration: false,
      webSecurity: true,
      webviewTag: false,
      // Chromium fetches its dictionaries from the network.
      spellcheck: false,
      // A lesson goes on while the window is behind another: the clock must not be slowed down then.
      backgroundThrottling: false,
    },
  };
}
