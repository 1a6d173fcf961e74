import type { WebContents, WindowOpenHandlerResponse } from "electron";
import { isOwn } from "./origin.ts";
import { windowOptions } from "./window.ts";

/** The name under which the page opens the wall view, the round shown large in a second window. */
export const wallName = "throneside-wall";

/**
 * Keeps a window on the program's own pages: no other address, no embedded browsers, and no new window but the wall
 * view, which is as shut in as the first one. `preload` is the path of the preload script.
 */
export function guardNavigation(
  contents: Pick<WebContents, "on" | "setWindowOpenHandler">,
  preload: string,
): void {
  contents.on("will-frame-navigate", (event) => {
    if (!isOwn(event.url)) event.preventDefault();
  });
  contents.on("will-redirect", (event) => {
    if (!isOwn(event.url)) event.preventDefault();
  });
  contents.on("will-attach-webview", (event) => event.preventDefault());
  contents.setWindowOpenHandler(({ url, frameName }) => answerToOpen(url, frameName, preload));
}

function answerToOpen(url: string, frameName: string, preload: string): WindowOpenHandlerResponse {
  if (!isOwn(url) || frameName !== wallName) return { action: "deny" };
  return { action: "allow", overrideBrowserWindowOptions: windowOptions(preload) };
}
