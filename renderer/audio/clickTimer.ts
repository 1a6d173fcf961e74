/**
 * Wakes the click from a worker: a page's own timers are slowed to one a second, or one a minute, while it is hidden;
 * those of a worker are not. Where no worker starts, the page's own timer stands in, and the click looks further ahead.
 */

/** Calls `look` now and then; returns the way to stop. */
export type Wake = (look: () => void) => () => void;

/** Twelve looks fit into what is scheduled ahead. Our choice. */
const LOOK_MS = 50;

export const clickTimer: Wake = (look) => {
  const worker = new Worker(new URL("./clickTimer.worker.ts", import.meta.url), { type: "module" });
  let timer: ReturnType<typeof setInterval> | undefined;
  worker.onmessage = look;
  worker.onerror = () => {
    timer ??= setInterval(look, LOOK_MS);
  };
  worker.postMessage(LOOK_MS);
  // Being hidden asks for more ahead, at once.
  document.addEventListener("visibilitychange", look);
  return () => {
    worker.terminate();
    clearInterval(timer);
    document.removeEventListener("visibilitychange", look);
  };
};
