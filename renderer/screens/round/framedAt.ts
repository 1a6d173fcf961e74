import type { SteppedKind } from "../../../engine/rounds/index.ts";
import type { FramedRound } from "./framedRound.ts";
import type { FramedRounds } from "./framedRounds.ts";

/** The round a page belongs to; `undefined` for a page of another kind. */
export function framedAt(framed: FramedRounds, screen: string): FramedRound | undefined {
  return Object.hasOwn(framed, screen) ? framed[screen as SteppedKind] : undefined;
}
