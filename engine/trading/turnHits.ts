/**
 * Question: which strokes belong to a turn?
 *
 * A stroke just before the line is the first of the next turn, not the last of this one; one on the one after a turn lands
 * there and is told apart. On two kits the player is known, so a pick-up may come earlier; what is struck while the other has
 * the turn is nobody's phrase.
 */
import { beatsPerBar } from "../score/index.ts";
import { beatSeconds, type Seconds } from "../units/index.ts";
import type { Side, Turn } from "./form.ts";
import type { PhraseHit } from "./phraseStrokes.ts";
import { barAt, beatsAt, type Pulse } from "./turnClock.ts";

/** A turn as it was played, with the pulse it was played on. */
export interface PlayedTurn {
  /** Of a free form with the bar it began in. */
  readonly turn: Turn;
  readonly pulse: Pulse;
  readonly from: Seconds;
  /** Where the next one begins. */
  readonly until: Seconds;
}

/** A turn that has a length, on its pulse. */
export function turnOn(turn: Turn, pulse: Pulse): PlayedTurn {
  return {
    turn,
    pulse,
    from: barAt(pulse, turn.fromBar),
    until: barAt(pulse, turn.fromBar + (turn.bars ?? 0)),
  };
}

/** A turn of a free form, as long as it was played: from its first stroke to the other's. */
export function freeTurnOn(
  turn: Turn,
  pulse: Pulse,
  { from, until }: Pick<PlayedTurn, "from" | "until">,
): PlayedTurn {
  const fromBar = Math.round(beatsAt(pulse, from) / beatsPerBar(pulse.metre));
  return { turn: { ...turn, fromBar }, pulse, from, until };
}

/** A stroke and who struck it; `null` where both share a kit. */
export interface TradedHit extends PhraseHit {
  readonly side: Side | null;
}

/** Half of a sixteenth before the line already belongs to what follows. */
export const EARLY_BEATS = 1 / 8;
/** Where it is known who strikes, a pick-up may come an eighth before the line. Our choice. */
const PICK_UP_BEATS = 0.5;
/** A stroke so long after the line may still be the landing of the turn before. */
export const LANDING_BEATS = 1 / 4;

export interface TurnStrokes {
  /** The phrase. */
  readonly phrase: readonly TradedHit[];
  /** The phrase and, where the same player struck it, its landing on the one after the turn. */
  readonly withLanding: readonly TradedHit[];
  /** False where both share a kit: a stroke on the line may be either's. */
  readonly isLandingTold: boolean;
}

/**
 * The strokes of a turn.
 *
 * @param pickUpFrom where it is known who strikes, what comes after this moment belongs to the turn as well.
 */
export function turnHits(
  hits: readonly TradedHit[],
  { turn: { side }, pulse: { tempoBpm }, from, until }: PlayedTurn,
  pickUpFrom: Seconds = from,
): TurnStrokes {
  const beat = beatSeconds(tempoBpm);
  const end = until - EARLY_BEATS * beat;
  const begins = Math.min(from - PICK_UP_BEATS * beat, pickUpFrom);
  const isPhrase = ({ time, side: by }: TradedHit): boolean =>
    (by === null || by === side) && time >= (by === null ? from - EARLY_BEATS * beat : begins) && time < end;
  const phrase = hits.filter(isPhrase);
  // On a shared kit the stroke on the line is the other player's first one.
  const landing = hits.filter(
    ({ time, side: by }) => by === side && time >= end && time < until + LANDING_BEATS * beat,
  );
  const isLandingTold = phrase.every(({ side: by }) => by !== null);
  return { phrase, withLanding: [...phrase, ...landing], isLandingTold };
}
