/**
 * Whether students were on the Roster of this computer before: that alone is kept, nothing of them. So a studio that was
 * emptied, by hand or by a browser that lost its store, is told from a new one. "Erase everything" takes it away as well.
 */
import type { KeepingPlace } from "../../session/keepingPlace.ts";

const KEPT_AS = "throneside.taughtBefore";
const KEPT = "yes";

export function readTaughtBefore(place: KeepingPlace | undefined): boolean {
  try {
    return place?.getItem(KEPT_AS) === KEPT;
  } catch {
    // A browser that keeps nothing: the studio looks new.
    return false;
  }
}

export function keepTaughtBefore(place: KeepingPlace | undefined): void {
  try {
    place?.setItem(KEPT_AS, KEPT);
  } catch {
    // A browser that keeps nothing: it holds until the page is closed.
  }
}
