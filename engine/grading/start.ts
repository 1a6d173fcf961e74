/**
 * Question: where in the target did the player come in, and at what tempo?
 *
 * First the voices vote: every difference between a hit and a written stroke of its family is a vote for a start,
 * over a grid of tempos (a generalised Hough transform, Ballard, Pattern Recognition 13 (1981) 111–122). The
 * best starts are then aligned, and the cheapest is kept. Only the first 64 hits take part, so the search is
 * linear in the target and does not grow with the take.
 */
import { familyOf, type Hit, type Voice } from "../kit/index.ts";
import { beatSeconds, type Seconds } from "../units/index.ts";
import { GAP, slotCost, WITHIN_FAMILY } from "./align.ts";
import { grouped } from "./grouped.ts";
import { type Matched, Matching, SHARED_START, type StartPoint } from "./matching.ts";
import type { Target, TargetNote } from "./target.ts";

/** Enough for several bars of any groove, few enough to stay quick. Our choice. */
const HITS_FOR_VOTE = 64;
/** Longer, and the votes smear between two tempos of the grid: half a step over half of this is 20 ms. */
const SECONDS_FOR_VOTE = 8;
/** Tempos from 8 % slower to 8 % faster, 1 % apart. */
const STRETCHES = Array.from({ length: 17 }, (_, at) => 0.92 + at * 0.01);
const BIN_SECONDS = 0.02;
/** A start with fewer votes than this share of the best is not worth aligning. Our choice. */
const WORTH_ALIGNING = 0.7;
const MOST_EARLY_STARTS = 12;
const MOST_VOTED_STARTS = 12;
/** A vote for another voice of the same family. Our choice: the hand was right, the sound was not. */
const OTHER_VOICE_VOTE = 0.5;
/** Starts whose costs are this close, in gaps, fit equally well: no stroke tells them apart. */
const TIE = GAP / 2;

interface Votes {
  readonly stretch: number;
  readonly earliest: Seconds;
  readonly bins: Float64Array;
}

interface Span {
  readonly firstHit: Seconds;
  readonly lastHit: Seconds;
  readonly firstNote: Seconds;
  readonly lastNote: Seconds;
}

interface Candidate extends StartPoint {
  readonly votes: number;
}

/**
 * The start and tempo at which the beginning of the take fits the target with the fewest strokes out; among
 * equals, as when a groove repeats, the earliest in the target. Without hits or notes, the shared clock.
 */
export function findStart(hits: readonly Hit[], target: Target): StartPoint {
  const first = hits[0];
  if (!first || target.notes.length === 0) return SHARED_START;
  const opening = hits.slice(0, HITS_FOR_VOTE).filter((hit) => hit.time <= first.time + SECONDS_FOR_VOTE);
  const span = {
    firstHit: first.time,
    lastHit: opening[opening.length - 1]?.time ?? first.time,
    firstNote: target.notes[0]?.time ?? 0,
    lastNote: target.notes[target.notes.length - 1]?.time ?? 0,
  };
  const voters = votersOf(opening, target.notes);
  const starts = STRETCHES.flatMap((stretch) => peaks(vote(voters, span, target.notes, stretch)));
  const byFit = worthAligning(starts).map((start) => ({ start, cost: costOf(opening, target, start) }));
  const least = Math.min(...byFit.map(({ cost }) => cost));
  const fitting = byFit.filter(({ cost }) => cost <= least + TIE);
  return (
    earliest(
      fitting.map(({ start, cost }) => ({ ...start, cost })),
      first.time,
    ) ?? SHARED_START
  );
}

/** What the hits have to say to notes of one voice. */
interface Voters {
  readonly times: Float64Array;
  readonly weights: Float64Array;
}

function vote(
  voters: ReadonlyMap<Voice, Voters>,
  span: Span,
  notes: readonly TargetNote[],
  stretch: number,
): Votes {
  const earliestStart = span.firstHit - stretch * span.lastNote - BIN_SECONDS;
  const latestStart = span.lastHit - stretch * span.firstNote + BIN_SECONDS;
  const bins = new Float64Array(Math.ceil((latestStart - earliestStart) / BIN_SECONDS) + 2);
  for (const note of notes) {
    const heard = voters.get(note.voice);
    if (!heard) continue;
    const from = stretch * note.time + earliestStart;
    for (let at = 0; at < heard.times.length; at += 1) {
      // A vote is shared by the two nearest bins, so that it does not matter where the bins begin.
      const place = ((heard.times[at] ?? 0) - from) / BIN_SECONDS;
      const bin = Math.floor(place);
      const weight = heard.weights[at] ?? 0;
      bins[bin] = (bins[bin] ?? 0) + weight * (1 - place + bin);
      bins[bin + 1] = (bins[bin + 1] ?? 0) + weight * (place - bin);
    }
  }
  return { stretch, earliest: earliestStart, bins };
}

/**
 * For each voice of the target, the hits of its family. Rare voices tell more, since hi-hats fit a groove at every
 * eighth: a vote weighs one over the root of how often the voice is written.
 */
function votersOf(hits: readonly Hit[], notes: readonly TargetNote[]): ReadonlyMap<Voice, Voters> {
  const hitsOf = grouped(hits, ({ voice }) => familyOf(voice));
  const written = grouped(notes, ({ voice }) => voice);
  return new Map(
    [...written].map(([voice, { length }]) => {
      const heard = hitsOf.get(familyOf(voice)) ?? [];
      const weight = Math.sqrt(notes.length / length);
      return [
        voice,
        {
          times: Float64Array.from(heard, (hit) => hit.time),
          weights: Float64Array.from(heard, (hit) => weight * (hit.voice === voice ? 1 : OTHER_VOICE_VOTE)),
        },
      ];
    }),
  );
}

/** Local maxima of the votes, each over three bins: a player's strokes scatter by more than one. */
function peaks({ stretch, earliest: from, bins }: Votes): Candidate[] {
  const wide = bins.map((here, bin) => (bins[bin - 1] ?? 0) + here + (bins[bin + 1] ?? 0));
  const most = wide.reduce((highest, votes) => Math.max(highest, votes), 0);
  const found: Candidate[] = [];
  wide.forEach((votes, bin) => {
    if (votes < most * WORTH_ALIGNING || votes < (wide[bin - 1] ?? 0) || votes <= (wide[bin + 1] ?? 0))
      return;
    const lean = ((bins[bin + 1] ?? 0) - (bins[bin - 1] ?? 0)) / votes;
    found.push({ stretch, time: from + (bin + lean) * BIN_SECONDS, votes });
  });
  return found;
}

/** The most voted starts, and the earliest of those nearly as much voted. */
function worthAligning(starts: readonly Candidate[]): readonly Candidate[] {
  const byVotes = [...starts].sort((a, b) => b.votes - a.votes);
  const most = byVotes[0]?.votes ?? 0;
  const good = byVotes.filter(({ votes }) => votes >= most * WORTH_ALIGNING);
  const early = [...good.filter(({ votes }) => votes >= most * 0.85)].sort((a, b) => b.time - a.time);
  return [...new Set([...good.slice(0, MOST_VOTED_STARTS), ...early.slice(0, MOST_EARLY_STARTS)])];
}

/** Cost of aligning the opening of the take from a start, in gaps; notes before and after the opening are free. */
function costOf(opening: readonly Hit[], target: Target, start: StartPoint): number {
  const { hits, strokes, unanswered } = matchedFrom(opening, target, start);
  const pairs = strokes.reduce((sum, { note, hit, offsetMs }) => {
    const onTarget = note.time + offsetMs / 1000;
    return (
      sum + Math.min(slotCost({ note, hit: { time: onTarget, voice: hit.voice } }, WITHIN_FAMILY), 2 * GAP)
    );
  }, 0);
  return pairs + GAP * (unanswered.length + hits.filter(({ state }) => state === "extra").length);
}

/**
 * What became of a take that came in at `start`. Notes up to half a beat outside the take may be answered by its
 * first and last hits; only those between first and last hit can be left out.
 */
export function matchedFrom(hits: readonly Hit[], target: Target, start: StartPoint): Matched {
  const halfBeat = beatSeconds(target.tempoBpm) / 2;
  const matching = new Matching(notesWithin(target.notes, hits, start, halfBeat), start);
  for (const hit of hits) matching.hear(hit);
  const matched = matching.matched();
  return { ...matched, unanswered: notesWithin(matched.unanswered, hits, start, WITHIN_FAMILY.scaleSeconds) };
}

/** Notes between the first and the last hit, `margin` seconds of the target around them included. */
function notesWithin(
  notes: readonly TargetNote[],
  hits: readonly Hit[],
  start: StartPoint,
  margin: Seconds,
): readonly TargetNote[] {
  const first = hits[0];
  const last = hits[hits.length - 1];
  if (!first || !last) return [];
  const from = (first.time - start.time) / start.stretch - margin;
  const to = (last.time - start.time) / start.stretch + margin;
  return notes.filter(({ time }) => time > from && time < to);
}

/** Of starts that fit equally well: earliest in the target; of those within a stroke's reach, the cheapest. */
function earliest(
  starts: readonly (StartPoint & { readonly cost: number })[],
  firstHit: Seconds,
): StartPoint | undefined {
  const entry = (start: StartPoint) => (firstHit - start.time) / start.stretch;
  const soonest = Math.min(...starts.map(entry));
  const together = starts.filter((start) => entry(start) <= soonest + 2 * WITHIN_FAMILY.scaleSeconds);
  const [best] = together.sort((a, b) => a.cost - b.cost);
  return best && { time: best.time, stretch: best.stretch };
}
