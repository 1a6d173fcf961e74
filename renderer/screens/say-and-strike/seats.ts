/** Who is heard at which kit. */
import { type Call, type PlayerId, stillToStrike } from "../../../engine/rounds/index.ts";
import type { KitLog } from "../../session/kitLog.ts";
import type { KitsHeard } from "../round/kitsHeard.ts";

/** What the round needs of the kits. */
export interface SeatedKits extends KitsHeard {
  /** The kit a student sits at by the lesson; `null` where it does not say. */
  readonly seatOf: (player: PlayerId) => KitLog | null;
}

/** Where each is heard. */
export type Seats = ReadonlyMap<PlayerId | null, KitLog>;

function seatOf(player: PlayerId | null, kits: Pick<SeatedKits, "seatOf">): KitLog | null {
  return player === null ? null : kits.seatOf(player);
}

/** Whether each who is still waited for strikes at a kit of their own, so that nobody need say whose answer it is. */
export function isEachSeated(call: Call, kits: Pick<SeatedKits, "seatOf">): boolean {
  return stillToStrike(call).every((player) => seatOf(player, kits) !== null);
}

/**
 * Each who is still waited for at their own kit; whoever has none strikes at the one that answers, one by one.
 *
 * @param next who is to answer there.
 */
export function seatsFor(call: Call, next: PlayerId | null, kits: SeatedKits): Seats {
  const seats = new Map<PlayerId | null, KitLog>();
  for (const player of stillToStrike(call)) {
    const seat = seatOf(player, kits);
    if (seat) seats.set(player, seat);
  }
  const shared = kits.answering();
  if (!seats.has(next) && ![...seats.values()].includes(shared)) seats.set(next, shared);
  return seats;
}
