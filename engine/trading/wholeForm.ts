/**
 * Question: what is to be said of a whole form: what each player used, how the time went on from one to the other, and who
 * leads and who follows?
 */
import { leanAndSpread } from "../grading/index.ts";
import type { Voice } from "../kit/index.ts";
import { beatSeconds, type Milliseconds } from "../units/index.ts";
import { type PulseOffset, pulseOffsets } from "./exchange.ts";
import { isPhrase, type Side } from "./form.ts";
import { type PhaseCorrection, phaseCorrection } from "./phaseCorrection.ts";
import { phraseStrokes } from "./phraseStrokes.ts";
import { barAt, beatsAt, type Pulse } from "./turnClock.ts";
import { type PlayedTurn, type TradedHit, turnHits } from "./turnHits.ts";

export interface PlayerInForm {
  readonly side: Side;
  readonly strokes: number;
  /** Sounds used, the most used first. */
  readonly voices: readonly { readonly voice: Voice; readonly count: number }[];
  /** Against the pulse. */
  readonly leanMs: Milliseconds | null;
  readonly spreadMs: Milliseconds | null;
  /** How much of what this player was apart from the other's pulse was made good at the next beat; `null`: cannot be told. */
  readonly correction: PhaseCorrection | null;
}

export interface WholeForm {
  readonly players: readonly [PlayerInForm, PlayerInForm];
  /** Who follows the other; `null` where both do alike, or it cannot be told. */
  readonly follows: Side | null;
}

/** A share of correction is told when its standard error is no more than this, as in `wander`. Our choice. */
const LARGEST_ERROR = 0.25;
/** One follows more than the other when their shares are so many standard errors apart. */
const APART_ERRORS = 2;

/** Tells of a whole form from all of its strokes. */
export function tellForm(hits: readonly TradedHit[], played: readonly PlayedTurn[]): WholeForm {
  const turns = played.filter(({ turn }) => turn.part !== "way");
  const own = (side: Side) => turns.filter(({ turn }) => isPhrase(turn) && turn.side === side);
  const players = ([0, 1] as const).map((side): PlayerInForm => {
    const phrases = own(side).map((played) => ({
      pulse: played.pulse,
      phrase: turnHits(hits, played).phrase,
    }));
    const strokes = phrases.flatMap(({ phrase }) => phraseStrokes(phrase));
    const offsets = phrases.flatMap(({ phrase, pulse }) => pulseOffsets(phrase, pulse));
    const { leanMs, spreadMs } = leanAndSpread(offsets.map(({ offsetMs }) => offsetMs));
    return {
      side,
      strokes: strokes.length,
      voices: counted(strokes.map(({ voice }) => voice)),
      leanMs,
      spreadMs,
      correction: correctionOf(hits, turns, side),
    };
  });
  const [a, b] = players;
  if (!a || !b) throw new Error("A form has two players.");
  return { players: [a, b], follows: followerOf(a.correction, b.correction) };
}

function followerOf(a: PhaseCorrection | null, b: PhaseCorrection | null): Side | null {
  if (!a || !b || a.error > LARGEST_ERROR || b.error > LARGEST_ERROR) return null;
  if (Math.abs(a.share - b.share) < APART_ERRORS * Math.hypot(a.error, b.error)) return null;
  return a.share > b.share ? 0 : 1;
}

/**
 * In each turn the other player's pulse, as it was left, is the metronome: asynchronies with it, beat by beat, in rows that no
 * silent beat breaks.
 */
function correctionOf(
  hits: readonly TradedHit[],
  turns: readonly PlayedTurn[],
  side: Side,
): PhaseCorrection | null {
  const rows: Milliseconds[][] = [];
  turns.forEach((played, at) => {
    const { turn, pulse } = played;
    const before = turns[at - 1];
    if (turn.part === "groove" || turn.side !== side || !before || before.turn.side === side) return;
    const left = pulseOffsets(turnHits(hits, before).phrase, before.pulse);
    const leftAt = leanAndSpread(left.map(({ offsetMs }) => offsetMs)).leanMs;
    if (leftAt === null) return;
    // Without a click each turn has a pulse of its own: what was left is told on this one.
    const line = (barAt(before.pulse, turn.fromBar) - barAt(pulse, turn.fromBar)) * 1000;
    rows.push(...beatRows(pulseOffsets(turnHits(hits, played).phrase, pulse), pulse, leftAt + line));
  });
  return phaseCorrection(rows);
}

/** Offsets of the strokes on the beat, less where the other left the pulse; a new row after every silent beat. */
function beatRows(offsets: readonly PulseOffset[], pulse: Pulse, leftAt: Milliseconds): Milliseconds[][] {
  const rows: Milliseconds[][] = [];
  let lastBeat: number | undefined;
  for (const { time, offsetMs } of offsets) {
    const place = beatsAt(pulse, time - offsetMs / 1000);
    const beat = Math.round(place);
    if (Math.abs(place - beat) * beatSeconds(pulse.tempoBpm) > 1e-3 || beat === lastBeat) continue;
    if (lastBeat === undefined || beat > lastBeat + 1) rows.push([]);
    rows.at(-1)?.push(offsetMs - leftAt);
    lastBeat = beat;
  }
  return rows;
}

function counted(voices: readonly Voice[]): PlayerInForm["voices"] {
  const counts = new Map<Voice, number>();
  for (const voice of voices) counts.set(voice, (counts.get(voice) ?? 0) + 1);
  return [...counts].map(([voice, count]) => ({ voice, count })).sort((a, b) => b.count - a.count);
}
