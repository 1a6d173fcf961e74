/**
 * Question: what became of every hit and every written stroke when the form slipped on the way?
 *
 * Method: the take is cut where the player left the written place as a whole (`formPath.ts`, `afterStop.ts`), and each
 * piece is aligned by itself from the place where it went on. So a bar skipped is one slip, and all that follows is
 * graded where it was played. A written stroke is answered once, by the piece that met it first.
 */
import type { Hit } from "../kit/index.ts";
import { beatSeconds, type Milliseconds, type Seconds } from "../units/index.ts";
import { type ClockedHit, firstRestart } from "./afterStop.ts";
import { formPath, nearestPlace, roundBeats } from "./formPath.ts";
import { type Matched, Matching, type StartPoint, type Stroke } from "./matching.ts";
import { Misfit } from "./misfit.ts";
import type { JudgedHit } from "./report.ts";
import { WITHIN_FAMILY } from "./slot.ts";
import type { Target, TargetNote } from "./target.ts";

/** A part of the take that lies at one place against the page. "Page time" is the target's clock. */
export interface FormPiece {
  /** Its hits: places among all. */
  readonly firstHit: number;
  readonly endHit: number;
  /** How far behind the page it lies, in the target's seconds. */
  readonly shift: Seconds;
  /** The same with the player's clock as it stood at the first hit: with his lean and drift. */
  readonly opening: Seconds;
  /** Page time at which it begins, and up to which it was played or would have been. */
  readonly from: Seconds;
  readonly to: Seconds;
  /** Strokes that were out of place for it (see `Piece`). */
  readonly saved: number;
  readonly afterStop: boolean;
}

export interface InPieces {
  readonly matched: Matched;
  readonly pieces: readonly FormPiece[];
}

/** A stretch between two stops: the player's clock runs on inside it. */
interface Stretch {
  readonly firstHit: number;
  readonly endHit: number;
  readonly shift: Seconds;
  /** How much of it came with the stop before it. */
  readonly moved: Seconds;
  /** By the player's clock, before `shift` is taken off. */
  readonly heard: readonly ClockedHit[];
}

/** After more stops than this the rest is taken as it comes. Our choice. */
const MOST_STOPS = 24;
/** With a click, a place this near to a whole half beat is meant to be one: what is left is lean. Our choice. */
const MEANT_SECONDS: Seconds = 0.04;

/**
 * @param plain the take aligned as if the form had held.
 * @param free whether only what lies between the first and the last hit counts.
 */
export function inPieces(plain: Matched, target: Target, start: StartPoint, free: boolean): InPieces {
  const pieces = formPieces(plain, target, start, free);
  const hits = plain.hits.map(({ hit }) => hit);
  if (pieces.length === 1 && pieces[0]?.shift === 0) return { matched: plain, pieces };
  return { matched: gluedTogether(hits, pieces, { plain, target, start, free }), pieces };
}

function formPieces(plain: Matched, target: Target, start: StartPoint, free: boolean): readonly FormPiece[] {
  const begun: Omit<FormPiece, "to" | "endHit">[] = [];
  for (const stretch of stretchesOf(plain, target, start, free)) {
    formPath(stretch.heard, target).forEach(({ from, shift, saved }, at) => {
      const firstHeard = stretch.heard.findIndex(({ time }) => time >= from);
      if (firstHeard < 0) return;
      const heard = stretch.heard[firstHeard];
      begun.push({
        firstHit: stretch.firstHit + (at === 0 ? 0 : firstHeard),
        shift: stretch.shift + shift,
        opening: stretch.shift + shift + clockAt(heard),
        from: at === 0 ? (heard?.time ?? 0) - shift - WITHIN_FAMILY.scaleSeconds : from - shift,
        saved: at === 0 ? saved + savedByStop(stretch, target) : saved,
        afterStop: at === 0 && stretch.firstHit > 0,
      });
    });
  }
  return begun.map((piece, at): FormPiece => {
    const next = begun[at + 1];
    const isFirst = at === 0;
    const endHit = next?.firstHit ?? plain.hits.length;
    return {
      ...piece,
      from: isFirst ? Number.NEGATIVE_INFINITY : piece.from,
      to: next ? next.from + next.shift - piece.shift : Number.POSITIVE_INFINITY,
      endHit,
    };
  });
}

/** Strokes that would be out if the page were taken to have run on as before the stop. */
function savedByStop({ heard, moved }: Stretch, target: Target): number {
  if (moved === 0) return 0;
  const misfit = new Misfit(heard, target.notes, beatSeconds(target.tempoBpm));
  const outAt = (shift: Seconds) => misfit.at(shift).reduce((sum, out) => sum + out, 0);
  return (outAt(-moved) - outAt(0)) / 2;
}

/** Cut at the stops after which the player went on elsewhere. */
function stretchesOf(plain: Matched, target: Target, start: StartPoint, free: boolean): readonly Stretch[] {
  const hits = plain.hits.map(({ hit }) => hit);
  const stretches: Stretch[] = [];
  let firstHit = 0;
  let shift = 0;
  let moved = 0;
  let heardAt = plain.heardAt;
  for (;;) {
    const heard = hits.slice(firstHit).map((hit, at): ClockedHit => {
      const raw = (hit.time - start.time) / start.stretch - shift;
      return { voice: hit.voice, raw, time: heardAt[at] ?? raw };
    });
    const restart = stretches.length < MOST_STOPS ? firstRestart(heard, target) : undefined;
    const endHit = firstHit + (restart?.at ?? heard.length);
    stretches.push({ firstHit, endHit, shift, moved, heard: heard.slice(0, endHit - firstHit) });
    if (!restart) return stretches;
    firstHit = endHit;
    const beat = beatSeconds(target.tempoBpm);
    const before = shift;
    const by = free ? restart.shift : meant(restart.shift, beat / 2);
    shift = nearestPlace(shift + by, roundBeats(target) * beat);
    moved = shift - before;
    const opening = shift + clockAt(heard[restart.at - 1]);
    heardAt = matchedAt(hits.slice(firstHit), target.notes, start, { shift, opening }).heardAt;
  }
}

/** How late the player's clock stood at a hit. */
function clockAt(hit: ClockedHit | undefined): Seconds {
  return hit ? hit.raw - hit.time : 0;
}

function meant(shift: Seconds, halfBeat: Seconds): Seconds {
  const nearest = Math.round(shift / halfBeat) * halfBeat;
  return Math.abs(nearest - shift) <= MEANT_SECONDS ? nearest : shift;
}

function startAt(start: StartPoint, shift: Seconds): StartPoint {
  return { time: start.time + shift * start.stretch, stretch: start.stretch };
}

/** Hits aligned from a place on: the clock begins at that place. */
function matchedAt(
  hits: readonly Hit[],
  notes: readonly TargetNote[],
  start: StartPoint,
  { shift, opening }: Pick<FormPiece, "shift" | "opening">,
): Matched {
  const first = hits[0];
  const from = startAt(start, shift);
  const at = first?.time ?? from.time;
  const matching = new Matching(notes, from, { at, from: startAt(start, opening) });
  for (const hit of hits) matching.hear(hit);
  return matching.matched();
}

interface Page {
  readonly plain: Matched;
  readonly target: Target;
  readonly start: StartPoint;
  readonly free: boolean;
}

function gluedTogether(hits: readonly Hit[], pieces: readonly FormPiece[], page: Page): Matched {
  const { target, start } = page;
  const judged: JudgedHit[] = [];
  const heardAt: Seconds[] = [];
  const strokes: Stroke[] = [];
  const answered = new Set<number>();
  let furthest = Number.NEGATIVE_INFINITY;
  for (const piece of pieces) {
    const its = hits.slice(piece.firstHit, piece.endHit);
    const notes = target.notes.filter(
      ({ index, time }) => time >= piece.from && time < piece.to && !answered.has(index),
    );
    const matched = matchedAt(its, notes, start, piece);
    const slippedMs = piece.shift * start.stretch * 1000;
    matched.hits.forEach((one, at) => {
      const pageTime = matched.heardAt[at] ?? 0;
      judged.push(inPlaceOf(one, { slippedMs, surplus: isSurplus(pageTime, furthest, piece, target) }));
      heardAt.push(pageTime);
    });
    strokes.push(...matched.strokes);
    for (const { note } of matched.strokes) {
      answered.add(note.index);
      furthest = Math.max(furthest, note.time);
    }
  }
  strokes.sort((a, b) => a.note.index - b.note.index);
  const left = target.notes.filter(({ index }) => !answered.has(index));
  const isSkipped = skippedBy(pieces, heardAt, page);
  const counts = countedBy(heardAt, page);
  return {
    hits: judged,
    strokes,
    unanswered: left.filter((note) => counts(note) && !isSkipped(note)),
    skipped: left.filter((note) => counts(note) && isSkipped(note)),
    heardAt,
  };
}

function inPlaceOf(
  judged: JudgedHit,
  { slippedMs, surplus }: { readonly slippedMs: Milliseconds; readonly surplus: boolean },
): JudgedHit {
  if (judged.state === "matched" && slippedMs !== 0) return { ...judged, slippedMs };
  if (judged.state === "extra" && surplus) return { ...judged, surplus: true };
  return judged;
}

/** Played again, or where the page is over: told by the form, and not as an added stroke. */
function isSurplus(pageTime: Seconds, furthest: Seconds, piece: FormPiece, { notes }: Target): boolean {
  if (piece.shift === 0 && piece.firstHit === 0) return false;
  const end = notes[notes.length - 1]?.time ?? 0;
  return pageTime < furthest + WITHIN_FAMILY.scaleSeconds || pageTime > end + WITHIN_FAMILY.scaleSeconds;
}

/** Written strokes that lie in no piece, or after the end of a take that came late to it. */
function skippedBy(
  pieces: readonly FormPiece[],
  heardAt: readonly Seconds[],
  { target }: Page,
): (note: TargetNote) => boolean {
  const last = pieces[pieces.length - 1];
  const lastNote = target.notes[target.notes.length - 1]?.time ?? 0;
  const lastHeard = heardAt[heardAt.length - 1] ?? 0;
  // Late by so much, the end of the page could not be reached in time.
  const reached = Math.max(lastHeard, lastNote - Math.max(0, last?.shift ?? 0));
  return ({ time }) =>
    !pieces.some(({ from, to }) => time >= from && time < to) ||
    (last !== undefined && last.shift > 0 && time > reached + WITHIN_FAMILY.scaleSeconds);
}

/** With a free start only what lies between the first and the last hit counts. */
function countedBy(
  heardAt: readonly Seconds[],
  { plain, free, target }: Page,
): (note: TargetNote) => boolean {
  if (!free) return () => true;
  const from = (plain.heardAt[0] ?? 0) - WITHIN_FAMILY.scaleSeconds;
  const to = heardAt.reduce((latest, time) => Math.max(latest, time), from) + WITHIN_FAMILY.scaleSeconds;
  const end = target.notes[target.notes.length - 1]?.time ?? 0;
  return ({ time }) => time > from && time < Math.min(to, end + 1);
}
