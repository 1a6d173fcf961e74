/**
 * Question: would the pairing be cheaper if some hits changed notes?
 *
 * Two toms written together, or a crash with a ride, are struck in whatever order the hands fall; a pairing that
 * keeps the order may then give each the other's hit. So chains of slots near each other pass their notes on wherever
 * that lowers the cost: the first hit takes the second's note, the second the third's, and the last the first's, or
 * none at all. Only chains that have gained something at every step are followed: every chain that pays can be begun
 * so that it does (the gain criterion of Lin & Kernighan, Operations Research 21 (1973) 498–516).
 */
import { GAP, type PairCost, type Slot, type Sounded, slotCost, slotTime } from "./slot.ts";

/**
 * Slots in a chain at most. With five, 9,595 of 9,600 random lines of toms, cymbals and hi-hats cost exactly what the
 * best assignment costs (Munkres 1957), and no 200 of them together more than 1 in 1,000 above it; with two, 9,551. Our choice.
 */
const LONGEST_CHAIN = 5;
/** Passes over all slots; each one lowers the cost, and the third seldom finds anything. */
const MOST_PASSES = 6;
const ROUNDING = 1e-9;

/** The slots after all exchanges that pay, in the order given (a note left out on the way follows its former slot). */
export function exchanged<N extends Sounded, H extends Sounded>(
  slots: readonly Slot<N, H>[],
  cost: PairCost,
): readonly Slot<N, H>[] {
  const better = [...slots];
  for (let pass = 0, changed = true; changed && pass < MOST_PASSES; pass += 1) {
    changed = false;
    for (let first = 0; first < better.length; first += 1) {
      const chain = payingChain(better, [first], 0, cost);
      if (!chain) continue;
      passOn(better, chain);
      changed = true;
    }
  }
  return better;
}

interface Chain {
  /** Places of slots; each hit takes the note of the next. */
  readonly places: readonly number[];
  /** Whether the last hit takes the first one's note; otherwise that note is left out and that hit left over. */
  readonly closed: boolean;
}

/** A chain that begins with these places and pays, or nothing. `gain` is what they have gained by passing on. */
function payingChain(
  slots: readonly Slot<Sounded, Sounded>[],
  places: readonly number[],
  gain: number,
  cost: PairCost,
): Chain | undefined {
  const first = slots[places[0] ?? 0];
  const at = places[places.length - 1] ?? 0;
  const last = slots[at];
  if (!first || !last) return undefined;
  const freed = gain + slotCost(last, cost);
  if (places.length > 1) {
    if (freed - slotCost({ hit: last.hit, note: first.note }, cost) > ROUNDING)
      return { places, closed: true };
    if (freed - (last.hit ? GAP : 0) - (first.note ? GAP : 0) > ROUNDING) return { places, closed: false };
  }
  if (places.length === LONGEST_CHAIN) return undefined;
  for (const step of [-1, 1]) {
    for (let next = at + step; isNear(slots[next], last, cost); next += step) {
      const gained = freed - slotCost({ hit: last.hit, note: slots[next]?.note }, cost);
      if (gained <= ROUNDING || places.includes(next)) continue;
      const chain = payingChain(slots, [...places, next], gained, cost);
      if (chain) return chain;
    }
  }
  return undefined;
}

/** Near enough in time to exchange notes: a hit reaches two gaps to its note, and that note two gaps to its hit. */
function isNear(
  slot: Slot<Sounded, Sounded> | undefined,
  centre: Slot<Sounded, Sounded>,
  cost: PairCost,
): boolean {
  return slot !== undefined && Math.abs(slotTime(slot) - slotTime(centre)) <= 4 * GAP * cost.scaleSeconds;
}

function passOn<N extends Sounded, H extends Sounded>(slots: Slot<N, H>[], { places, closed }: Chain): void {
  const notes = places.map((place) => slots[place]?.note);
  places.forEach((place, step) => {
    const isLast = step === places.length - 1;
    const note = isLast ? (closed ? notes[0] : undefined) : notes[step + 1];
    slots[place] = { hit: slots[place]?.hit, note };
  });
  // Empty slots have no time and would stand between neighbours. From the back, so that places stay true.
  for (const place of [...places].sort((a, b) => b - a)) {
    if (!slots[place]?.hit && !slots[place]?.note) slots.splice(place, 1);
  }
  if (!closed) slots.splice((places[0] ?? 0) + 1, 0, { hit: undefined, note: notes[0] });
}
