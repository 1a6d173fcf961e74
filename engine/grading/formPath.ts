/**
 * Question: did the player leave the written place as a whole, and where on the page did he go on?
 *
 * Method: the take is cut into cells of a beat. In each the player is some half beats off the page; the cheapest path
 * through the cells is found (Viterbi, IEEE Trans. Inf. Theory 13 (1967) 260–269), where a cell costs the strokes
 * that do not fit (`misfit.ts`) and a change of place costs about as much as a bar of wrong strokes. So a single fill
 * or a bar of slips is never taken for a change of place. After a stop, a player may go on at any moment: there the
 * strokes vote for a place of their own, as at a free start.
 */
import { beatsPerBar } from "../score/index.ts";
import { beatSeconds, type Seconds } from "../units/index.ts";
import { Misfit } from "./misfit.ts";
import type { Sounded } from "./slot.ts";
import type { Target, TargetNote } from "./target.ts";

/** A part of the take that lies at one place against the page. All on the target's clock, drift taken out. */
export interface Piece {
  /** Where it begins; the first piece holds everything before as well. */
  readonly from: Seconds;
  /** How far the player is behind the page there; negative when ahead. */
  readonly shift: Seconds;
  /** How many strokes too few or too many would have been told at the place of the piece before. */
  readonly saved: number;
}

/** Half beats tried on either side: two bars. Further jumps are found where the player stopped. Our choice. */
const BARS_TRIED = 2;
const STEPS_A_BEAT = 2;
/** A path is looked for when this share of strokes does not fit in any four bars. Our choice: below a pupil's ordinary slips. */
const TROUBLE_SHARE = 0.12;
const TROUBLE_BARS = 4;
/** What a change of place costs: this share of the strokes of a bar, written and played, and some more. Our choice. */
const CHANGE_SHARE = 0.3;
const CHANGE_LEAST = 5;
/** Equal places: the nearest to the page is taken. */
const PREFERENCE = 1e-3;
/** A place is believed when no more than this share of its strokes is out. Our choice. */
const BELIEVED_SHARE = 0.25;

/** The pieces of a take, in order; a single one with no shift when the form held. */
export function formPath(hits: readonly Sounded[], target: Target): readonly Piece[] {
  const whole: Piece = { from: Number.NEGATIVE_INFINITY, shift: 0, saved: 0 };
  if (hits.length === 0 || target.notes.length === 0) return [whole];
  const misfit = new Misfit(hits, target.notes, beatSeconds(target.tempoBpm));
  const inPlace = misfit.at(0);
  if (!isTroubled(inPlace, misfit, target)) return [whole];
  const barBeats = beatsPerBar(target.metre);
  const shifts = shiftsTried(Math.min(barBeats * BARS_TRIED, roundBeats(target) / 2), misfit.cellSeconds);
  const costs = shifts.map((shift) => (shift === 0 ? inPlace : misfit.at(shift)));
  const path = cheapestPath(shifts, costs, changeCost((hits.length * barBeats) / misfit.cells));
  return piecesOf(path, shifts, costs, misfit);
}

/** What a change of place costs where so many strokes are played in a bar. */
export function changeCost(hitsABar: number): number {
  return CHANGE_LEAST + CHANGE_SHARE * 2 * hitsABar;
}

/** On a page that repeats itself, places a round apart are one place. */
function shiftsTried(beats: number, cellSeconds: Seconds): readonly Seconds[] {
  const steps = Math.floor(beats * STEPS_A_BEAT);
  return Array.from({ length: 2 * steps + 1 }, (_, at) => ((at - steps) * cellSeconds) / STEPS_A_BEAT);
}

function isTroubled(inPlace: Float64Array, misfit: Misfit, target: Target): boolean {
  const window = TROUBLE_BARS * beatsPerBar(target.metre);
  for (let to = misfit.cells; ; to -= Math.ceil(window / 2)) {
    const from = Math.max(0, to - window);
    // Hits and the notes they would answer: twice the hits.
    if (sumOf(inPlace, from, to) > TROUBLE_SHARE * 2 * sumOf(misfit.hits, from, to)) return true;
    if (from === 0) break;
  }
  return false;
}

function sumOf(cells: Float64Array, from: number, to: number): number {
  let sum = 0;
  for (let cell = Math.max(0, from); cell < Math.min(cells.length, to); cell += 1) sum += cells[cell] ?? 0;
  return sum;
}

/** For each cell the place in `shifts` of the cheapest path. */
function cheapestPath(
  shifts: readonly Seconds[],
  costs: readonly Float64Array[],
  change: number,
): readonly number[] {
  const cells = costs[0]?.length ?? 0;
  const cameFrom: Int16Array[] = [];
  let totals = shifts.map((shift) => (shift === 0 ? 0 : change));
  for (let cell = 0; cell < cells; cell += 1) {
    const best = smallest(totals);
    const changed = (totals[best] ?? 0) + change;
    const from = new Int16Array(shifts.length);
    totals = totals.map((total, state) => {
      const stays = total <= changed;
      from[state] = stays ? state : best;
      const shift = shifts[state] ?? 0;
      return (stays ? total : changed) + (costs[state]?.[cell] ?? 0) + PREFERENCE * Math.abs(shift);
    });
    cameFrom.push(from);
  }
  let state = smallest(totals);
  const path: number[] = [];
  for (let cell = cells - 1; cell >= 0; cell -= 1) {
    path.push(state);
    state = cameFrom[cell]?.[state] ?? state;
  }
  return path.reverse();
}

function smallest(values: readonly number[]): number {
  let best = 0;
  values.forEach((value, at) => {
    if (value < (values[best] ?? 0)) best = at;
  });
  return best;
}

/** Runs of one place; a place that does not fit well enough is not believed, and the one before goes on. */
function piecesOf(
  path: readonly number[],
  shifts: readonly Seconds[],
  costs: readonly Float64Array[],
  misfit: Misfit,
): readonly Piece[] {
  const pieces: Piece[] = [];
  let state = shifts.indexOf(0);
  const outAt = (at: number, from: number, to: number) => sumOf(costs[at] ?? new Float64Array(), from, to);
  for (let from = 0, to = 0; from < path.length; from = to) {
    const next = path[from] ?? state;
    while (to < path.length && path[to] === next) to += 1;
    const strokes = 2 * Math.max(1, sumOf(misfit.hits, from, to));
    const believed = next === state || outAt(next, from, to) <= BELIEVED_SHARE * strokes;
    if (pieces.length > 0 && (next === state || !believed)) continue;
    const saved = believed ? (outAt(state, from, to) - outAt(next, from, to)) / 2 : 0;
    if (believed) state = next;
    const begins = pieces.length === 0 ? Number.NEGATIVE_INFINITY : misfit.from + from * misfit.cellSeconds;
    pieces.push({ from: begins, shift: shifts[state] ?? 0, saved });
  }
  return pieces;
}

/**
 * The same place on a page that repeats itself after `round`, no further off than half a round.
 *
 * @example
 * nearestPlace(3, 4) // => -1
 */
export function nearestPlace(shift: number, round: number): number {
  return Math.abs(shift) <= round / 2 + 1e-6 ? shift : shift - Math.round(shift / round) * round;
}

/**
 * After how many beats the page repeats itself; its own length when it does not.
 *
 * @example
 * roundBeats(grooveTarget(groove, { tempoBpm: 100, bars: 4 })) // => 4
 */
export function roundBeats(target: Pick<Target, "notes" | "metre">): number {
  const barBeats = beatsPerBar(target.metre);
  const last = target.notes[target.notes.length - 1]?.beat ?? 0;
  const length = Math.ceil((last + 1e-3) / barBeats) * barBeats;
  const placeOf = ({ voice }: TargetNote, beat: number) => `${voice} ${Math.round(beat * 48)}`;
  const places = new Set(target.notes.map((note) => placeOf(note, note.beat)));
  for (let round = 1; round <= length / 2; round += 1) {
    const repeats = target.notes.every(
      (note) => note.beat + round > last + 1e-3 || places.has(placeOf(note, note.beat + round)),
    );
    if (repeats) return round;
  }
  return length;
}
