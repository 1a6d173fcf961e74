/** What was struck on the two pads, hand by hand. */
import type { Hit } from "../../../engine/kit/index.ts";
import type { PlayedStroke } from "../../../engine/recall/index.ts";
import type { HandPadsOf } from "../../session/handPads.ts";
import type { LessonLog } from "../../session/lessonLog.ts";

/** Strikes on other pads are left out. */
export function byHand(hits: readonly Hit[], { L, R }: HandPadsOf): readonly PlayedStroke[] {
  return hits.flatMap(({ time, pad, velocity }): readonly PlayedStroke[] => {
    if (pad === L) return [{ time, velocity, hand: "L" }];
    return pad === R ? [{ time, velocity, hand: "R" }] : [];
  });
}

/** What was struck since the last step of a round, before the program was opened again: it stands in the lesson's log. */
export function struckEarlier(
  log: Pick<LessonLog, "isOn" | "events">,
  roundId: string | undefined,
): readonly Hit[] {
  if (!log.isOn) return [];
  const asked = log.events.findLast((event) => event.kind === "round-step" && event.roundId === roundId);
  if (!asked) return [];
  return log.events.flatMap((event) =>
    event.kind === "hit" && event.lane === asked.lane && event.seq > asked.seq ? [event.hit] : [],
  );
}
