/**
 * Question: where in the target did the player come in, and at what tempo?
 *
 * First the voices vote: every difference between a hit and a written stroke of its family is a vote for a start,
 * over a grid of tempos (a generalised Hough transform, Ballard, Pattern Recognition 13 (1981) 111–122). The
 * best starts are then aligned, and the cheapest is kept. Only the first 64 hits take part, so the search is
 * linear in the target and does not grow with the take.
 */
import { familyOf, type Hit, type Voice } from "../kit/index.ts";
import { beatSeconds, type Milliseconds, median, type Seconds } from "../units/index.ts";
import { grouped } from "./grouped.ts";
import { type Matched, Matching, SHARED_START, type StartPoint, type Stroke } from "./matching.ts";
import { GAP, slotCost, WITHIN_FAMILY } from "./slot.ts";
import type { Target, TargetNote } from "./target.ts";

/** Enough for several bars of any groove, few enough to stay quick. Our choice. */
const HITS_FOR_VOTE = 64;
/** Longer, and the votes smear between two tempos of the grid: half a step over half of this is 20 ms. */
const SECONDS_FOR_VOTE = 8;
/** Tempos from 8 % slower to 8 % faster, 1 % apart. */
const STRETCH_STEP = 0.01;
const STRETCHES = Array.from({ length: 17 }, (_, at) => 0.92 + at * STRETCH_STEP);
const BIN_SECONDS = 0.02;

/** Which starts are worth aligning. */
interface Search {
  /** Those with at least this share of the most votes. */
  readonly votesShare: number;
  readonly most: number;
  readonly mostAtTempo: number;
}

/**
 * First the starts with nearly the most votes. In a long target full of strokes the dense places draw votes from
 * everywhere, and the true one may have less than that; so when none of the first fits well, many more are tried.
 * Our choice.
 */
const SEARCHES: readonly Search[] = [
  { votesShare: 0.7, most: 12, mostAtTempo: 2 },
  { votesShare: 0.5, most: 240, mostAtTempo: 12 },
];
/** A start fits well up to this cost a hit, in gaps: a scatter of 12 ms with one stroke in ten out costs as much. */
const FITS_WELL = 0.25 * GAP;
/** Starts of a repeating groove have nearly the votes of one another. Our choice. */
const ALIKE = 0.85;
const MOST_FELLOWS = 64;
/** A vote for another voice of the same family. Our choice: the hand was right, the sound was not. */
const OTHER_VOICE_VOTE = 0.5;
/** Starts whose costs are this close, in gaps, fit equally well: the fellows of a start differ by rounding only. */
const TIE = GAP / 10;

interface Votes {
  readonly stretch: number;
  readonly earliest: Seconds;
  readonly bins: Float32Array;
  readonly wide: Float32Array;
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
 * equals, as when a groove repeats, the earliest in the target. When no voice of the target was heard, the first hit is
 * taken for the first note; without hits or notes, the shared clock stands.
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
  const votes = STRETCHES.map((stretch) => vote(voters, span, target.notes, stretch));
  const most = Math.max(
    ...votes.map(({ wide }) => wide.reduce((highest, here) => Math.max(highest, here), 0)),
  );
  let starts: readonly Candidate[] = [];
  let best: Costed | undefined;
  for (const search of SEARCHES) {
    starts = votes.flatMap((those) => peaks(those, most * search.votesShare));
    best = cheapest(
      worthAligning(starts, search).map((start) => ({ ...start, cost: openingCost(opening, target, start) })),
    );
    if (best && best.cost <= FITS_WELL * opening.length) break;
  }
  if (!best) return { time: first.time - span.firstNote, stretch: 1 };
  const costOf = (start: StartPoint) =>
    openingCost(opening, target, start) + GAP * hitsBeyond(hits, opening.length, span.lastNote, start);
  const { time, stretch } = earliestAlike(best, starts, costOf);
  return { time, stretch };
}

/** The most voted starts, and the most voted at each tempo. */
function worthAligning(starts: readonly Candidate[], { most, mostAtTempo }: Search): readonly Candidate[] {
  const byVotes = [...starts].sort((a, b) => b.votes - a.votes);
  const byTempo = [...grouped(byVotes, ({ stretch }) => stretch).values()];
  return [
    ...new Set([...byVotes.slice(0, most), ...byTempo.flatMap((those) => those.slice(0, mostAtTempo))]),
  ];
}

interface Costed extends Candidate {
  readonly cost: number;
}

function cheapest(starts: readonly Costed[]): Costed | undefined {
  return starts.reduce<Costed | undefined>(
    (best, start) => (best && best.cost <= start.cost ? best : start),
    undefined,
  );
}

/**
 * Where a groove repeats, the best start has fellows that fit equally well. Over the whole take, the one with the
 * fewest strokes out; among equals the earliest in the target.
 *
 * @param costOf cost over the whole take; never less than the cost of the opening.
 */
function earliestAlike(
  best: Costed,
  starts: readonly Candidate[],
  costOf: (start: StartPoint) => number,
): StartPoint {
  const fellows = starts
    .filter(({ stretch, votes }) => stretch === best.stretch && votes >= best.votes * ALIKE)
    .sort((a, b) => b.time - a.time)
    .slice(0, MOST_FELLOWS);
  const costed: Costed[] = [];
  for (const fellow of fellows) {
    const cost = costOf(fellow);
    if (cost <= best.cost + TIE) return fellow;
    costed.push({ ...fellow, cost });
  }
  const least = cheapest([...costed, { ...best, cost: costOf(best) }]);
  return costed.find(({ cost }) => least && cost <= least.cost + TIE) ?? best;
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
  const bins = new Float32Array(Math.ceil((latestStart - earliestStart) / BIN_SECONDS) + 2);
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
  return { stretch, earliest: earliestStart, bins, wide: widened(bins) };
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

/** Each bin with its two neighbours: a player's strokes scatter by more than one bin. */
function widened(bins: Float32Array): Float32Array {
  const wide = new Float32Array(bins.length);
  for (let bin = 1; bin < bins.length - 1; bin += 1) {
    wide[bin] = (bins[bin - 1] ?? 0) + (bins[bin] ?? 0) + (bins[bin + 1] ?? 0);
  }
  return wide;
}

/** Local maxima of the votes. */
function peaks({ stretch, earliest, bins, wide }: Votes, atLeast: number): Candidate[] {
  const found: Candidate[] = [];
  for (let bin = 1; bin < wide.length - 1; bin += 1) {
    const votes = wide[bin] ?? 0;
    if (votes < atLeast || votes < (wide[bin - 1] ?? 0) || votes <= (wide[bin + 1] ?? 0)) continue;
    const lean = ((bins[bin + 1] ?? 0) - (bins[bin - 1] ?? 0)) / votes;
    found.push({ stretch, time: earliest + (bin + lean) * BIN_SECONDS, votes });
  }
  return found;
}

/**
 * Cost of aligning the opening of the take from a start, in gaps. Start and tempo come from bins, so what a line
 * explains of the offsets is no cost: else the bins would choose between starts that fit alike.
 */
function openingCost(opening: readonly Hit[], target: Target, start: StartPoint): number {
  const { hits, strokes, unanswered } = matchedFrom(opening, target, start);
  const line = halvesLine(strokes);
  const pairs = strokes.reduce((sum, { note, hit, offsetMs }) => {
    const lateSeconds = (offsetMs - line(note.time)) / 1000;
    const heard = { time: note.time + lateSeconds, voice: hit.voice };
    return sum + Math.min(slotCost({ note, hit: heard }, WITHIN_FAMILY), 2 * GAP);
  }, 0);
  return pairs + GAP * (unanswered.length + hits.filter(({ state }) => state === "extra").length);
}

/**
 * Hits after the opening for which the target is over: the opening alone does not show that a start lies too late.
 * The tempo is not yet known to better than a step of the grid, so the end is moved by as much.
 */
function hitsBeyond(hits: readonly Hit[], from: number, lastNote: Seconds, start: StartPoint): number {
  const first = hits[0];
  if (!first) return 0;
  const end = start.time + start.stretch * lastNote;
  const latest = end + 2 * WITHIN_FAMILY.scaleSeconds + STRETCH_STEP * Math.max(0, end - first.time);
  let beyond = 0;
  for (let at = hits.length - 1; at >= from && (hits[at]?.time ?? 0) > latest; at -= 1) beyond += 1;
  return beyond;
}

/** The line through the medians of the two halves (Brown & Mood 1951): quick, and steady with mistakes in it. */
function halvesLine(strokes: readonly Stroke[]): (time: Seconds) => Milliseconds {
  const half = strokes.length >> 1;
  const [early, late] = [strokes.slice(0, half), strokes.slice(half)].map((those) => ({
    time: median(those.map(({ note }) => note.time)),
    offsetMs: median(those.map(({ offsetMs }) => offsetMs)),
  }));
  if (!early || !late || half === 0 || late.time <= early.time) return () => 0;
  const slope = (late.offsetMs - early.offsetMs) / (late.time - early.time);
  return (time) => early.offsetMs + slope * (time - early.time);
}

/**
 * What became of a take that came in at `start`. Notes a little outside the take may be answered by its first and last
 * hits; only those between first and last hit can be left out.
 *
 * @param opening place and tempo of the take's beginning, where another than `start` (see {@link Matching}).
 */
export function matchedFrom(
  hits: readonly Hit[],
  target: Target,
  start: StartPoint,
  opening: StartPoint = start,
): Matched {
  const first = hits[0];
  const last = hits[hits.length - 1];
  if (!first || !last) return { hits: [], strokes: [], unanswered: [], skipped: [], heardAt: [] };
  const beat = beatSeconds(target.tempoBpm);
  const matching = new Matching(
    notesBetween(target.notes, {
      from: (first.time - opening.time) / opening.stretch - beat / 2,
      // Where a take that changes tempo ends is only known when it has been followed.
      to: (last.time - start.time) / start.stretch + (opening === start ? beat / 2 : BEATS_TO_SPARE * beat),
    }),
    start,
    { at: first.time, from: opening },
  );
  for (const hit of hits) matching.hear(hit);
  const matched = matching.matched();
  const unanswered = notesBetween(matched.unanswered, {
    from: (first.time - opening.time) / opening.stretch - WITHIN_FAMILY.scaleSeconds,
    to: matching.writtenTime(last.time) + WITHIN_FAMILY.scaleSeconds,
  });
  return { ...matched, unanswered };
}

/** Notes kept at the end for a take that gains so much. Our choice. */
const BEATS_TO_SPARE = 2;

function notesBetween(
  notes: readonly TargetNote[],
  { from, to }: { readonly from: Seconds; readonly to: Seconds },
): readonly TargetNote[] {
  return notes.filter(({ time }) => time > from && time < to);
}
