import type { WebContents } from "electron";
import { isOwn } from "./origin.ts";

/** Keeps a window on the program's own pages: no other address, no new windows, no embedded browsers. */
export function guardNavigation(contents: Pick<WebContents, "on" | "setWindowOpenHandler">): void {
  contents.on("will-frame-navigate", (event) => {
    if (!isOwn(event.url)) event.preventDefault();
  });
  contents.on("will-redirect", (event) => {
    if (!isOwn(event.url)) event.preventDefault();
  });
  contents.on("will-attach-webview", (event) => event.preventDefault());
  contents.setWindowOpenHandler(() => ({ action: "deny" }));
}
