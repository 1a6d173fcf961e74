/** One round of a groove as it was heard in a take: the written strokes, with what differs told stroke by stroke. */
import type { JudgedHit, Report } from "../../engine/grading/index.ts";
import {
  type Groove,
  grooveBeats,
  inOrder,
  type Note,
  playedBeat,
  type StaffSource,
  staffPlace,
} from "../../engine/score/index.ts";
import { type Fraction, fraction, leastCommonMultiple, type Milliseconds } from "../../engine/units/index.ts";
import type { Difference } from "../../engraving/index.ts";
import { targetTempo } from "./targetTempo.ts";

/** What was heard in one round, ready to be written. */
export interface HeardRound {
  /** Which round of the groove, from 0. */
  readonly round: number;
  readonly source: StaffSource;
  /** By the note's place in the source. */
  readonly differences: ReadonlyMap<number, Difference>;
}

/**
 * Every whole round of the groove in the take, in order. A stroke is ahead or behind when it left the band round the take's own
 * lean. Slips of the form are told by the report and not written here.
 *
 * @param bandMs half the band.
 */
export function heardRounds(report: Report, groove: Groove, bandMs: Milliseconds): readonly HeardRound[] {
  const inRound = groove.notes.length;
  if (inRound === 0) return [];
  const reached = report.hits.flatMap((judged) => (judged.state === "matched" ? [judged.targetIndex] : []));
  if (reached.length === 0) return [];
  const rounds = Math.floor(Math.max(...reached) / inRound) + 1;
  const tempoBpm = targetTempo(report.hits, groove);
  return Array.from({ length: rounds }, (_, round) => heardRound(report, groove, bandMs, round, tempoBpm));
}

/** The round with the most that differs; the first of those. `undefined` when there is none. */
export function mostTelling(rounds: readonly HeardRound[]): HeardRound | undefined {
  return rounds.reduce<HeardRound | undefined>(
    (most, each) => (most && most.differences.size >= each.differences.size ? most : each),
    undefined,
  );
}

function heardRound(
  report: Report,
  groove: Groove,
  bandMs: Milliseconds,
  round: number,
  tempoBpm: number | undefined,
): HeardRound {
  const heard: { readonly note: Note; readonly difference?: Difference }[] = [];
  const inRound = groove.notes.length;
  const matched = new Map<number, Extract<JudgedHit, { state: "matched" }>>();
  for (const judged of report.hits) {
    if (judged.state === "matched" && Math.floor(judged.targetIndex / inRound) === round) {
      matched.set(judged.targetIndex % inRound, judged);
    }
  }
  const missed = new Set(
    report.missed.flatMap(({ targetIndex, skipped }) =>
      !skipped && Math.floor(targetIndex / inRound) === round ? [targetIndex % inRound] : [],
    ),
  );
  groove.notes.forEach((note, index) => {
    const hit = matched.get(index);
    if (hit) {
      const difference = differenceOf(hit, report.leanMs ?? 0, bandMs);
      heard.push({ note: { ...note, voice: hit.hit.voice }, ...(difference ? { difference } : {}) });
    } else if (missed.has(index)) heard.push({ note, difference: { kind: "left-out" } });
  });
  if (tempoBpm !== undefined) heard.push(...added(report, groove, round, tempoBpm));
  const voices = [...new Set([...groove.voices, ...heard.map(({ note }) => note.voice)])];
  const notes = inOrder(
    heard.map(({ note }) => note),
    voices,
  );
  const differences = new Map(
    heard.flatMap(({ note, difference }) => (difference ? [[notes.indexOf(note), difference] as const] : [])),
  );
  return { round, source: { metre: groove.metre, feel: groove.feel, bars: groove.bars, notes }, differences };
}

function differenceOf(
  hit: Extract<JudgedHit, { state: "matched" }>,
  leanMs: Milliseconds,
  bandMs: Milliseconds,
): Difference | undefined {
  if (hit.hit.voice !== hit.targetVoice) {
    return { kind: "other-sound", written: staffPlace(hit.targetVoice) };
  }
  const offsetMs = hit.offsetMs - leanMs;
  if (Math.abs(offsetMs) <= bandMs) return undefined;
  return { kind: offsetMs < 0 ? "ahead" : "behind" };
}

/** Strokes of the round that answer nothing written, each on the nearest place. */
function added(
  report: Report,
  groove: Groove,
  round: number,
  tempoBpm: number,
): readonly { readonly note: Note; readonly difference: Difference }[] {
  const length = grooveBeats(groove);
  return report.hits.flatMap((judged) => {
    if (judged.state !== "extra" || judged.surplus) return [];
    const time = (judged.hit.time - report.start.time) / report.start.stretch;
    const beat = (time * tempoBpm) / 60 - round * length;
    if (beat < -EARLY || beat >= length - EARLY) return [];
    const note: Note = {
      position: nearestPlace(beat, groove),
      voice: judged.hit.voice,
      dynamic: "plain",
    };
    return [{ note, difference: { kind: "added" } }];
  });
}

/** A stroke so far before the bar line, in beats, still belongs to its one. Our choice. */
const EARLY = 1 / 16;

/** The place for an added stroke: the nearest on the groove's own grid, sixteenths where that has none so fine. */
function nearestPlace(beat: number, groove: Groove): Fraction {
  const grid = groove.notes.reduce((grid, { position }) => leastCommonMultiple(grid, position.den), 1);
  const places = grid < 3 ? 4 : grid;
  const count = places * grooveBeats(groove);
  const apart = (place: number) => Math.abs(playedBeat(groove.feel, place / places) - beat);
  let nearest = 0;
  for (let place = 1; place < count; place += 1) if (apart(place) < apart(nearest)) nearest = place;
  return fraction(nearest, places);
}
