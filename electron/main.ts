import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { app, BrowserWindow, protocol, session } from "electron";
import { answerFrom, appScheme } from "./appProtocol.ts";
import { guardNavigation } from "./navigation.ts";
import { firstPage } from "./origin.ts";
import { guardPermissions } from "./permissions.ts";
import { windowOptions } from "./window.ts";

/** dist/electron once built; the pages are in dist/renderer beside it. */
const here = dirname(fileURLToPath(import.meta.url));
const preload = join(here, "preload.cjs");

if (app.requestSingleInstanceLock()) start();
else app.quit();

/** Everything up to `whenReady` must happen before Chromium starts, so nothing here may wait. */
function start(): void {
  protocol.registerSchemesAsPrivileged([appScheme]);
  app.enableSandbox();
  app.on("web-contents-created", (_event, contents) => guardNavigation(contents, preload));
  app.on("second-instance", showWindow);
  app.on("window-all-closed", () => app.quit());
  app.whenReady().then(open).catch(giveUp);
}

async function open(): Promise<void> {
  protocol.handle(appScheme.scheme, answerFrom(join(here, "..", "renderer")));
  guardPermissions(session.defaultSession);
  await new BrowserWindow(windowOptions(preload)).loadURL(firstPage);
}

/** A second start means "show me the program": the window that is there comes forward. */
function showWindow(): void {
  const [window] = BrowserWindow.getAllWindows();
  if (window?.isMinimized()) window.restore();
  window?.focus();
}

function giveUp(error: unknown): void {
  console.error("The window could not be opened:", error);
  app.exit(1);
}
