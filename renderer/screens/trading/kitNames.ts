/** At what two trade, as it is said. */
import type { KitsUsed } from "../../../engine/rounds/index.ts";

export const KIT_NAMES: Readonly<Record<KitsUsed, string>> = {
  "with-player": "a kit and a player who is not there",
  two: "two kits",
  shared: "one kit, by turns",
  far: "a kit here and one far away",
  demonstration: "two players who are not there",
};
