import type { KitLog } from "../../session/kitLog.ts";

/** The kits of a round in which one asks and one answers. */
export interface KitsHeard {
  /** The kit that answers, or plays back. */
  readonly answering: () => KitLog;
  /** The kit whose strikes are the question; the same one where there is no second. */
  readonly asking: () => KitLog;
}
