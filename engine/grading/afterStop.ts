/**
 * Question: after a stop, where on the page did the player go on?
 *
 * Method: a stop is a silence where strokes are written. If what follows does not fit the page as it ran on, the
 * strokes of the next two bars vote for a place as they do at a free start (`start.ts`), with the tempo as it was.
 */
import { beatsPerBar } from "../score/index.ts";
import { beatSeconds, median, type Seconds } from "../units/index.ts";
import { changeCost } from "./formPath.ts";
import { grouped } from "./grouped.ts";
import { Misfit } from "./misfit.ts";
import type { Sounded } from "./slot.ts";
import type { Target, TargetNote } from "./target.ts";

/** A hit by the player's clock and by the page's, both in the target's seconds. */
export interface ClockedHit extends Sounded {
  /** On the page's clock, no drift taken out. */
  readonly raw: Seconds;
}

export interface Restart {
  /** Place of the first hit after the stop. */
  readonly at: number;
  /** Further behind the page than before; negative when further ahead. */
  readonly shift: Seconds;
}

/** A silence of this many beats, with strokes written inside it, may be a stop. Our choice. */
const STOP_BEATS = 0.85;
/** Strokes written this near to the ends of a silence are not inside it. */
const INSIDE_SECONDS: Seconds = 0.1;
/** Bars that vote, and bars on either side of the stop where the player may go on. Our choice. */
const BARS_TO_VOTE = 2;
const BARS_AWAY = 4;
const FEWEST_HITS = 6;
/** Nearer than this is the same place, played ahead or behind: a matter for the clock that follows the player. Our choice. */
const OTHER_PLACE_BEATS = 0.2;
/** What follows fits the page as it ran on when no more than this share is out. Our choice. */
const IN_PLACE_SHARE = 0.3;
const BIN_SECONDS: Seconds = 0.02;
/** Places with nearly the most votes are tried. Our choice. */
const NEARLY_MOST = 0.7;
/** Places that leave no more strokes out than this above the best fit alike: of them the one nearest to the stop. Our choice. */
const TIE = 2;

/** The first stop after which the player went on at another place. */
export function firstRestart(hits: readonly ClockedHit[], target: Target): Restart | undefined {
  const beat = beatSeconds(target.tempoBpm);
  const window = BARS_TO_VOTE * beatsPerBar(target.metre) * beat;
  for (let at = 1; at < hits.length; at += 1) {
    const before = hits[at - 1];
    const hit = hits[at];
    if (!before || !hit || hit.time - before.time < STOP_BEATS * beat) continue;
    const inside = between(target.notes, before.time + INSIDE_SECONDS, hit.time - INSIDE_SECONDS);
    if (inside.length === 0) continue;
    let end = at;
    while ((hits[end]?.raw ?? Number.POSITIVE_INFINITY) - hit.raw <= window) end += 1;
    const shift = end - at < FEWEST_HITS ? undefined : newPlace(hits.slice(at, end), before, target);
    if (shift !== undefined) return { at, shift };
  }
  return undefined;
}

function newPlace(followed: readonly ClockedHit[], before: ClockedHit, target: Target): Seconds | undefined {
  const beat = beatSeconds(target.tempoBpm);
  const away = BARS_AWAY * beatsPerBar(target.metre) * beat;
  // The clock stands as it stood before the stop: what follows may be paired wrongly, and mislead it.
  const after = followed.map(
    ({ raw, voice }): Sounded => ({ time: raw - (before.raw - before.time), voice }),
  );
  const first = after[0]?.time ?? 0;
  const last = after[after.length - 1]?.time ?? 0;
  const notes = between(target.notes, first - 2 * away, last + 2 * away);
  const misfit = new Misfit(after, notes, beat);
  const outAt = (shift: Seconds) => sumOf(misfit.at(shift));
  const strokes = 2 * after.length;
  // A player who went on in place is followed by the clock, also when he drifts.
  const out = Math.min(outAt(0), sumOf(new Misfit(followed, notes, beat).at(0)));
  if (out <= IN_PLACE_SHARE * strokes) return undefined;
  const fits = placesVoted(after, notes, away)
    .filter((shift) => Math.abs(shift) >= OTHER_PLACE_BEATS * beat)
    .map((shift) => ({ shift, left: outAt(shift) }));
  const least = Math.min(...fits.map(({ left }) => left));
  if (!(least <= IN_PLACE_SHARE * strokes && out - least >= changeCost(after.length / BARS_TO_VOTE))) {
    return undefined;
  }
  const alike = fits.filter(({ left }) => left <= least + TIE);
  const fromStop = ({ shift }: { readonly shift: Seconds }) => Math.abs(first - shift - before.time);
  return alike.reduce((best, place) => (fromStop(place) < fromStop(best) ? place : best)).shift;
}

function sumOf(cells: Float64Array): number {
  return cells.reduce((sum, value) => sum + value, 0);
}

/** Places of the page that have nearly the most votes; a vote weighs more the rarer its voice is written. */
function placesVoted(
  after: readonly Sounded[],
  notes: readonly TargetNote[],
  away: Seconds,
): readonly Seconds[] {
  const bins = new Float64Array(Math.ceil((2 * away) / BIN_SECONDS) + 3);
  const written = grouped(notes, ({ voice }) => voice);
  const shifts: Seconds[] = [];
  for (const { time, voice } of after) {
    const its = written.get(voice) ?? [];
    const weight = Math.sqrt(notes.length / Math.max(1, its.length));
    for (const note of its) {
      const shift = time - note.time;
      if (Math.abs(shift) > away) continue;
      shifts.push(shift);
      const bin = Math.round((shift + away) / BIN_SECONDS) + 1;
      bins[bin] = (bins[bin] ?? 0) + weight;
    }
  }
  const wide = bins.map((votes, at) => (bins[at - 1] ?? 0) + votes + (bins[at + 1] ?? 0));
  const most = wide.reduce((highest, votes) => Math.max(highest, votes), 0);
  const places: Seconds[] = [];
  wide.forEach((votes, bin) => {
    const isPeak = votes > (wide[bin - 1] ?? 0) && votes >= (wide[bin + 1] ?? 0);
    if (!isPeak || votes < NEARLY_MOST * most) return;
    const centre = (bin - 1) * BIN_SECONDS - away;
    places.push(median(shifts.filter((shift) => Math.abs(shift - centre) <= 2 * BIN_SECONDS)));
  });
  return places;
}

function between(notes: readonly TargetNote[], from: Seconds, to: Seconds): readonly TargetNote[] {
  return notes.slice(firstAfter(notes, from), firstAfter(notes, to));
}

/** Notes are in order of time: the first one not before a moment. */
function firstAfter(notes: readonly TargetNote[], time: Seconds): number {
  let low = 0;
  let high = notes.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((notes[middle]?.time ?? 0) < time) low = middle + 1;
    else high = middle;
  }
  return low;
}
