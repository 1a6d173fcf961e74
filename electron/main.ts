import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { app, dialog, protocol, session, type WebContents } from "electron";
import { answerFrom, appScheme } from "./appProtocol.ts";
import { Book } from "./book.ts";
import { guardNavigation } from "./navigation.ts";
import { RoomReach, shutNetwork } from "./network.ts";
import { guardPermissions } from "./permissions.ts";
import { restartAfterCrash, type StoppedPage } from "./restart.ts";
import { windowOptions } from "./window.ts";

/** dist/electron once built; the pages are in dist/renderer beside it. */
const here = dirname(fileURLToPath(import.meta.url));
const preload = join(here, "preload.cjs");

let book: Book | undefined;

if (app.requestSingleInstanceLock()) start();
else app.quit();

/** Everything up to `whenReady` must happen before Chromium starts, so nothing here may wait. */
function start(): void {
  protocol.registerSchemesAsPrivileged([appScheme]);
  app.enableSandbox();
  app.on("web-contents-created", (_event, contents) => guard(contents));
  app.on("second-instance", () => book?.show());
  app.on("window-all-closed", () => app.quit());
  app.whenReady().then(open).catch(giveUp);
}

async function open(): Promise<void> {
  protocol.handle(appScheme.scheme, answerFrom(join(here, "..", "renderer")));
  guardPermissions(session.defaultSession);
  const reach = new RoomReach();
  shutNetwork(session.defaultSession, reach);
  book = new Book(preload, reach);
  await book.open();
}

/** Every page there ever is: the book's, the wall's, and any that should not be. */
function guard(contents: WebContents): void {
  guardNavigation(contents, () => book?.wallOptions() ?? windowOptions(preload));
  restartAfterCrash(contents, { nowMs: () => performance.now(), ask, tell: console.error });
}

async function ask(why: StoppedPage): Promise<boolean> {
  const { response } = await dialog.showMessageBox({
    type: "warning",
    message: `The page ${why}.`,
    detail:
      "What was played is kept up to the last moment. Opening the page again goes on at the same place.",
    buttons: ["Open it again", "Leave it"],
    defaultId: 0,
    cancelId: 1,
  });
  return response === 0;
}

function giveUp(error: unknown): void {
  console.error("The window could not be opened:", error);
  app.exit(1);
}
