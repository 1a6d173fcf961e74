import type { CardId } from "../../../engine/rounds/index.ts";

/** What goes on at the table beside its steps. */
export interface AtHand {
  /** Strikes of the bar that is being struck. */
  readonly struck: number;
  /** What was typed may be one of these. */
  readonly asks: readonly CardId[];
  /** What was typed and is no name. */
  readonly unknown: string | null;
  /** Whether the deck is being laid. */
  readonly isLaying: boolean;
  /** Why what is remembered of the students could not be read. */
  readonly trouble: string | null;
}

export const NOTHING_AT_HAND: AtHand = { struck: 0, asks: [], unknown: null, isLaying: false, trouble: null };
