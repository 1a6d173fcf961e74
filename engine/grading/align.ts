/**
 * Question: which hit answers which written stroke?
 *
 * Answer: the order-preserving pairing of least total cost. A pair costs its difference in time over a scale,
 * plus a penalty when it sounds on another voice; a hit or a note left over costs one gap. Two gaps are the
 * price of keeping a pair apart, so a pair dearer than two gaps can never pay: only notes within that reach of a
 * hit are looked at, and the band loses nothing. That makes the method linear in hits and notes.
 *
 * The method is dynamic programming over sequences (Needleman & Wunsch, J. Mol. Biol. 48 (1970) 443–453), run
 * forward one hit at a time. Rows are kept only for hits on which the paths still alive disagree; whatever they
 * agree on is settled, so the cost of one hit does not depend on how many came before.
 */
import type { Seconds } from "../units/index.ts";
import { exchanged } from "./exchange.ts";
import { GAP, type PairCost, pairCost, type Slot, type Sounded } from "./slot.ts";

/** Rows kept at most. Paths that have not agreed for so long are tied note for note, and the best is taken. */
const MOST_UNSETTLED = 64;

/**
 * Aligns all hits with all notes, both in order of time: an {@link Aligner} fed to the end.
 *
 * @returns slots roughly in order of time; each hit and each note stands in exactly one.
 * @example
 * align([{ time: 0, voice: "kick" }], [{ time: 0.01, voice: "kick" }], WITHIN_FAMILY).length // => 1
 */
export function align<N extends Sounded, H extends Sounded>(
  notes: readonly N[],
  hits: readonly H[],
  cost: PairCost,
): readonly Slot<N, H>[] {
  const aligner = new Aligner<N, H>(notes, cost);
  for (const hit of hits) aligner.hear(hit);
  return aligner.finish();
}

/** How a cell of the table was reached. In row 0, the settled past, `START` stands at the first column. */
const START = 0;
const MISSED = 1;
const EXTRA = 2;
const PAIRED = 3;

/** One hit's row: column `first + k` means that so many notes are behind us; `moves[k]` how we came there. */
interface Row {
  readonly first: number;
  readonly moves: number[];
}

/**
 * The alignment of one family, one hit at a time.
 *
 * @example
 * const aligner = new Aligner([{ time: 0, voice: "kick" }, { time: 1, voice: "kick" }], WITHIN_FAMILY);
 * aligner.hear({ time: 0.01, voice: "kick" }) // => { time: 0, voice: "kick" }
 * aligner.finish().map(({ hit }) => hit?.time) // => [0.01, undefined]
 */
export class Aligner<N extends Sounded, H extends Sounded> {
  readonly #notes: readonly N[];
  readonly #cost: PairCost;
  readonly #reach: Seconds;
  readonly #settled: Slot<N, H>[] = [];
  /** `#rows[0]` is where the settled past ends; `#rows[k]` follows it by the hits `#hits[0..k-1]`. */
  #rows: Row[] = [{ first: 0, moves: [START] }];
  #hits: H[] = [];
  /** Costs of the last row's cells. */
  #costs: number[] = [0];
  /** Notes too early, and notes not too late, for the hit last heard. */
  #passed = 0;
  #within = 0;

  constructor(notes: readonly N[], cost: PairCost) {
    this.#notes = notes;
    this.#cost = cost;
    this.#reach = 2 * GAP * cost.scaleSeconds;
  }

  /** Hears the next hit. Returns the note it answers as things stand: later hits may still change that. */
  hear(hit: H): N | undefined {
    this.#moveBand(hit.time);
    this.#extendLastRow();
    this.#addRow(hit);
    this.#settle();
    return this.#answered();
  }

  /** All slots if no more hits come. More may still be heard after it. */
  finish(): readonly Slot<N, H>[] {
    const column = this.#bestColumn();
    const rest = this.#notes.slice(column).map((note) => ({ hit: undefined, note }));
    return exchanged([...this.#settled, ...this.#trace(this.#rows.length - 1, column), ...rest], this.#cost);
  }

  #moveBand(time: Seconds): void {
    while (this.#timeOf(this.#passed) < time - this.#reach) this.#passed += 1;
    this.#within = Math.max(this.#within, this.#passed);
    while (this.#timeOf(this.#within) <= time + this.#reach) this.#within += 1;
    // A forced settlement may have gone beyond the notes that are too early.
    this.#passed = Math.max(this.#passed, this.#lastRow().first);
    this.#within = Math.max(this.#within, this.#passed);
  }

  #timeOf(noteAt: number): Seconds {
    return this.#notes[noteAt]?.time ?? Number.POSITIVE_INFINITY;
  }

  #lastRow(): Row {
    return this.#rows[this.#rows.length - 1] ?? { first: 0, moves: [START] };
  }

  /** Notes that have come into reach may have been left out before this hit. */
  #extendLastRow(): void {
    const row = this.#lastRow();
    for (let column = row.first + row.moves.length; column <= this.#within; column += 1) {
      row.moves.push(MISSED);
      this.#costs.push((this.#costs[this.#costs.length - 1] ?? 0) + GAP);
    }
  }

  #addRow(hit: H): void {
    const before = this.#lastRow();
    const costs: number[] = [];
    const moves: number[] = [];
    for (let column = this.#passed; column <= this.#within; column += 1) {
      const isFirst = column === this.#passed;
      const note = isFirst ? undefined : this.#notes[column - 1];
      const extra = (this.#costs[column - before.first] ?? Number.POSITIVE_INFINITY) + GAP;
      const missed = (costs[costs.length - 1] ?? Number.POSITIVE_INFINITY) + GAP;
      const paired = note
        ? (this.#costs[column - 1 - before.first] ?? Number.POSITIVE_INFINITY) +
          pairCost(hit, note, this.#cost)
        : Number.POSITIVE_INFINITY;
      const least = Math.min(paired, extra, missed);
      costs.push(least);
      moves.push(least === paired ? PAIRED : least === extra ? EXTRA : MISSED);
    }
    this.#rows.push({ first: this.#passed, moves });
    this.#hits.push(hit);
    this.#costs = costs;
  }

  /** Paths never cross, so all of them agree where the lowest and the highest one meet. */
  #settle(): void {
    let low = this.#passed;
    let high = this.#within;
    for (let row = this.#rows.length - 1; row > 0; row -= 1) {
      low = this.#enteredFrom(row, low);
      high = this.#enteredFrom(row, high);
      if (low === high) {
        this.#settleTo(row - 1, low);
        break;
      }
    }
    if (this.#rows.length > MOST_UNSETTLED) {
      this.#settleTo(this.#rows.length - 1, this.#bestColumn());
      this.#costs = [0];
    }
  }

  /** The column of the row above from which the path to this cell came. */
  #enteredFrom(row: number, column: number): number {
    const { first, moves } = this.#rows[row] ?? this.#lastRow();
    let at = column;
    while (moves[at - first] === MISSED) at -= 1;
    return moves[at - first] === PAIRED ? at - 1 : at;
  }

  #settleTo(row: number, column: number): void {
    if (row === 0 && column === this.#rows[0]?.first) return;
    this.#settled.push(...this.#trace(row, column));
    this.#rows = [{ first: column, moves: [START] }, ...this.#rows.slice(row + 1)];
    this.#hits = this.#hits.slice(row);
  }

  /** The slots on the path from the settled past to a cell. */
  #trace(row: number, column: number): Slot<N, H>[] {
    const slots: Slot<N, H>[] = [];
    for (;;) {
      const { first, moves } = this.#rows[row] ?? this.#lastRow();
      const move = moves[column - first];
      if (move === undefined || move === START) return slots.reverse();
      const note = move === EXTRA ? undefined : this.#notes[column - 1];
      const hit = move === MISSED ? undefined : this.#hits[row - 1];
      slots.push({ hit, note });
      if (move !== EXTRA) column -= 1;
      if (move !== MISSED) row -= 1;
    }
  }

  /** Where the cheapest path ends once the notes it has not reached are counted as left out. */
  #bestColumn(): number {
    const { first } = this.#lastRow();
    let best = 0;
    this.#costs.forEach((cost, at) => {
      if (cost - at * GAP <= (this.#costs[best] ?? 0) - best * GAP) best = at;
    });
    return first + best;
  }

  #answered(): N | undefined {
    const { first, moves } = this.#lastRow();
    let column = this.#bestColumn();
    while (moves[column - first] === MISSED) column -= 1;
    return moves[column - first] === PAIRED ? this.#notes[column - 1] : undefined;
  }
}
