import type { Judgement } from "../../../../engine/rounds/index.ts";
import type { Origin } from "../../../out/TakenFrom.ts";

/** What files made from a take are called by: what it was compared with, else what was heard in it. */
export function takeOrigin({ hearing, compared }: Judgement, day: Date): Origin {
  const heard = hearing.kind === "heard" ? hearing : undefined;
  const named = heard?.known ? heard.candidates[0]?.name : undefined;
  return {
    of: compared?.groove.name ?? named ?? "Free playing",
    day,
    tempoBpm: compared?.report.tempoBpm ?? heard?.pulse.tempoBpm ?? null,
  };
}
