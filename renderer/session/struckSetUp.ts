/** The set-up that was struck last, and how well its delay is known. */
import type { KitEvent } from "../../engine/kit/index.ts";
import type { Milliseconds } from "../../engine/units/index.ts";
import type { Session } from "./session.ts";

const HITS: ReadonlySet<KitEvent["kind"]> = new Set(["hit"]);

/** ± milliseconds, at the kit whose turn it is; `null` where that was never said, `undefined` where no hand struck. */
export function struckGiveOrTakeMs({
  listened,
  setUps,
}: Pick<Session, "listened" | "setUps">): Milliseconds | null | undefined {
  const kit = listened.get();
  const source = kit.log.latest(1, HITS)[0]?.entry.source;
  const setUp = source && kit.setUpOf(source);
  return setUp && setUps.calibrationOf(setUp).giveOrTakeMs;
}
