import { StrictMode } from "react";
import { createRoot } from "react-dom/client";
import { NewVersion } from "../offline/NewVersion.tsx";
import { Offline } from "../offline/offline.ts";
import { App } from "./App.tsx";
import { fetchFirstPage, fetchLaterPages } from "./laterPages.ts";
import { startProgram } from "./program.ts";
import type { Route } from "./screenNames.ts";

/**
 * So long the sheet may stay blank before it says that a page is being fetched. Our choice: as long as React keeps such a
 * placeholder once it was shown (FALLBACK_THROTTLE_MS), so that a page that is here sooner is shown sooner.
 */
const BLANK_MS = 300;
/** The first page reads what it shows in this time; the others are fetched after it. Our choice. */
const READING_MS = 400;

/** Starts the program, and draws the page that is shown first. */
export function start(route: Route): void {
  const place = document.getElementById("root");
  if (!place)
    throw new Error("The page has no element called root to draw into. Restore renderer/index.html.");
  const program = route === "wall" ? null : startProgram(window.localStorage);
  const firstPage = program && route !== "wall" ? fetchFirstPage(program, route) : Promise.resolve();
  const offline = new Offline();
  const sheet = createRoot(place);
  void Promise.race([firstPage, after(BLANK_MS)]).then(() =>
    sheet.render(
      <StrictMode>
        <App program={program} />
        {program && <NewVersion offline={offline} />}
      </StrictMode>,
    ),
  );
  void firstPage.then(async () => {
    // In the shell a lesson that a crash broke off goes on: nothing waits with that.
    if (program)
      void import("../shell/settleIn.ts").then(({ settleIn }) => settleIn(program, window, console.error));
    await after(READING_MS);
    // The files are kept after that: side by side most would be fetched twice.
    if (program) await fetchLaterPages(program);
    void offline.start();
  });
}

function after(ms: number): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, ms));
}
