import type { BrowserWindowConstructorOptions, WebContents, WindowOpenHandlerResponse } from "electron";
import { isOwn } from "./origin.ts";
import { wallName } from "./wall.ts";

/**
 * Keeps a window on the program's own pages: no other address, no embedded browsers, and no new window but the wall
 * view, with the options that `wall` gives when it is opened.
 */
export function guardNavigation(
  contents: Pick<WebContents, "on" | "setWindowOpenHandler">,
  wall: () => BrowserWindowConstructorOptions,
): void {
  contents.on("will-frame-navigate", (event) => {
    if (!isOwn(event.url)) event.preventDefault();
  });
  contents.on("will-redirect", (event) => {
    if (!isOwn(event.url)) event.preventDefault();
  });
  contents.on("will-attach-webview", (event) => event.preventDefault());
  contents.setWindowOpenHandler(({ url, frameName }) => answerToOpen(url, frameName, wall));
}

function answerToOpen(
  url: string,
  frameName: string,
  wall: () => BrowserWindowConstructorOptions,
): WindowOpenHandlerResponse {
  if (!isOwn(url) || frameName !== wallName) return { action: "deny" };
  return { action: "allow", overrideBrowserWindowOptions: wall() };
}
