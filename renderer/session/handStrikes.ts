import type { Hit } from "../../engine/kit/index.ts";
import type { KitLog } from "./kitLog.ts";

/**
 * Calls back for what hands strike from now on, whichever kit it is struck on: after each message, or several at once.
 * Pieces that are played by the program are left out. Returns the way to stop.
 *
 * @param heard the strikes in order, and the place of their kit among `logs`.
 */
export function onHandStrikes(
  logs: readonly KitLog[],
  heard: (hits: readonly Hit[], kit: number) => void,
): () => void {
  const stops = logs.map((log, kit) => {
    let seen = log.get();
    return log.subscribe(() => {
      const fresh = log.entries.slice(seen);
      seen = log.get();
      const hits = fresh.flatMap(({ event, source, live }) =>
        live && source !== "demonstration" && event.kind === "hit" ? [event.hit] : [],
      );
      if (hits.length > 0) heard(hits, kit);
    });
  });
  return () => {
    for (const stop of stops) stop();
  };
}
