/** A page that has crashed is opened again where it was: the same address, route included, so the same lesson. */
import type { WebContents } from "electron";
import { firstPage, isOwn } from "./origin.ts";

/** A page that crashes this often within this time will crash again; then the user is asked. Our choice. */
const MOST_RESTARTS = 3;
const WITHIN_MS = 60_000;

export type StoppedPage = "crashes again and again" | "does not answer";

export interface RestartPlace {
  /** A clock that only goes forward, in milliseconds. */
  readonly nowMs: () => number;
  /** Asks whether to open the page again; false means to leave it. */
  readonly ask: (why: StoppedPage) => Promise<boolean>;
  readonly tell: (sentence: string, error?: unknown) => void;
}

type Watched = Pick<WebContents, "on" | "getURL" | "loadURL" | "reload" | "forcefullyCrashRenderer">;

export function restartAfterCrash(contents: Watched, { nowMs, ask, tell }: RestartPlace): void {
  let restarts: readonly number[] = [];
  const openAgain = async (): Promise<void> => {
    restarts = [...restarts.filter((atMs) => nowMs() - atMs < WITHIN_MS), nowMs()];
    if (restarts.length > MOST_RESTARTS) {
      if (!(await ask("crashes again and again"))) return;
      restarts = [];
    }
    // Not loadURL for the same address: with a "#" in it that could count as a move within a page that is gone.
    if (isOwn(contents.getURL())) contents.reload();
    else await contents.loadURL(firstPage);
  };
  contents.on("render-process-gone", (_event, { reason, exitCode }) => {
    if (reason === "clean-exit") return;
    tell(`The page stopped (${reason}, code ${exitCode}) and is opened again.`);
    openAgain().catch((error: unknown) => tell("The page could not be opened again:", error));
  });
  contents.on("unresponsive", () => {
    ask("does not answer")
      // To crash it is the one way to end a page that hears nothing; the rest follows from that.
      .then((again) => again && contents.forcefullyCrashRenderer())
      .catch((error: unknown) => tell("The question about a page that does not answer failed:", error));
  });
}
