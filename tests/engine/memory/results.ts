/** Results for tests: of one student, at a moment of a day. */
import type { Day, ItemId, Result } from "../../../engine/memory/index.ts";
import type { Outcome } from "../../../engine/session/index.ts";

/** @param nth which result of that day: the later, the larger; 0 to 59. */
export function result(item: ItemId, outcome: Outcome, day: Day, nth = 0): Result {
  return {
    item,
    outcome,
    studentId: "ottilie",
    day,
    at: `${day}T15:${String(nth).padStart(2, "0")}:00.000Z`,
    evidence: { words: `${item} ${outcome}.`, roundId: "round-1" },
  };
}
